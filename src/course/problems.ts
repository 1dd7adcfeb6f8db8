/** What can be wrong with the folder of a course and between its lessons, by code. Codes are permanent; the words are for a teacher. */
import { type Catalogue, didYouMean, error, type Near, nearestInstead, warning } from '../diagnostics/catalogue.ts';
import type { Fix, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly } from '../diagnostics/edit.ts';

/** What is meant in the place of what is written, which is certain where the facts say so. */
const meantInstead = (facts: Near & { readonly certain?: boolean }, span: TextSpan): Fix | undefined =>
  facts.certain && facts.nearest !== undefined ? certainly(span, facts.nearest) : nearestInstead(facts, span);

const listed = (words: readonly string[]): string => words.join(', ');

export const COURSE_PROBLEMS = {
  'course-missing': error<{ dir: string }>({
    about: 'The folder that was named as a course does not exist.',
    message: ({ dir }) => `There is no course folder at ${dir}.`,
    help: () => 'Name the folder that holds course.yaml and lessons.',
  }),
  'course-not-folder': error<{ dir: string }>({
    about: 'A course is a folder: course.yaml, lessons and media are in it.',
    message: ({ dir }) => `${dir} is a file, and a course is a folder.`,
    help: () => 'Name the folder that holds course.yaml and lessons.',
  }),
  'course-file-missing': error<{ misnamed: string | undefined }>({
    about: 'course.yaml makes a folder a course. Only its title is required.',
    message: () => 'This folder has no course.yaml, so it is not yet a course.',
    help: ({ misnamed }) =>
      misnamed === undefined
        ? 'Write a file course.yaml with one line: title: …'
        : `Rename ${misnamed} to course.yaml.`,
  }),
  'no-lessons': error<{ misnamed: string | undefined }>({
    about: 'A course without a lesson has nothing to publish.',
    message: () => 'This course has no lesson.',
    help: ({ misnamed }) =>
      misnamed === undefined
        ? 'Write the first one as lessons/first.mdx, beginning with the three lines --- , title: … and --- .'
        : `Lessons are files that end in .mdx, in a folder called lessons: rename ${misnamed}.`,
  }),
  'file-unreadable': error<{ why: string }>({
    about: 'A file or folder of the course cannot be read.',
    message: ({ why }) => `This cannot be read: ${why}.`,
  }),
  'file-too-long': error<{ limit: string }>({
    about: 'A text of this size is a mistake, such as a recording under a lesson’s name.',
    message: ({ limit }) => `This file is longer than a text of a course can be (${limit}), so it was not read.`,
    help: () => 'Move pictures and recordings to the media folder, and divide a lesson that is really so long.',
  }),
  'file-not-utf8': error<object>({
    about: 'Course files are UTF-8 text. Another encoding turns letters and accidentals into others.',
    message: () => 'This is not UTF-8 text: the bytes here are not a character.',
    help: () => 'Save the file as UTF-8.',
  }),
  'file-control-character': error<{ name: string }>({
    about: 'A control character in a text is the trace of a damaged file or a binary one.',
    message: ({ name }) => `There is a control character here (${name}), which does not belong in text.`,
    help: () => 'Delete it, or fetch the file again if it is damaged.',
  }),
  'lesson-name': error<{ name: string; suggestion: string | undefined }>({
    about:
      'The name of a lesson’s file is its address and what other lessons quote, so it is made of letters, digits, hyphens and underscores.',
    message: ({ name }) => `“${name}” cannot be part of an address: letters, digits, hyphens and underscores only.`,
    help: ({ suggestion }) => (suggestion === undefined ? undefined : `Rename it to ${suggestion}.`),
  }),
  'lesson-twice': error<{ id: string; other: string }>({
    about:
      'Two lessons whose names differ only in capital or accented letters’ form share one address on many machines.',
    message: ({ id, other }) => `The lesson “${id}” has the same name as ${other}.`,
    help: () => 'Rename one of the two.',
  }),
  'lesson-extension': warning<{ ending: string; name: string }>({
    about: 'Lessons are files that end in .mdx. Another text beside them is not read, which may be a mistake.',
    message: ({ ending }) => `A file that ends in ${ending} is not read as a lesson.`,
    help: ({ name }) => `If it is one, rename it to ${name}.mdx .`,
  }),
  'file-misplaced': warning<{ name: string; meant: string }>({
    about: 'A course reads its files under their own names and in their own folders.',
    message: ({ name }) => `${name} is not read.`,
    help: ({ meant }) => `If it belongs to the course, it is called ${meant}.`,
  }),
  'stage-unknown': error<Near & { stage: string; known: readonly string[]; certain?: boolean }>({
    about: 'A lesson’s stage is one of those that course.yaml lists.',
    message: ({ stage }) => `course.yaml has no stage “${stage}”.`,
    help: (facts) =>
      didYouMean(facts) ??
      (facts.known.length > 0
        ? `The stages are: ${listed(facts.known)}.`
        : 'List it there under stages, with an id and a title.'),
    fix: meantInstead,
  }),
  'requires-unknown': error<Near & { lesson: string; certain?: boolean; several?: readonly string[] | undefined }>({
    about: 'A lesson can only require a lesson that exists.',
    message: ({ lesson }) => `There is no lesson “${lesson}” to require.`,
    help: (facts) => {
      if (facts.several) return `Write several in brackets: [${facts.several.join(', ')}].`;
      return didYouMean(facts) ?? 'Write the name of a lesson’s file, without its ending.';
    },
    fix: (facts, span) =>
      facts.several ? certainly(span, `[${facts.several.join(', ')}]`) : meantInstead(facts, span),
  }),
  'link-unknown': error<Near & { lesson: string }>({
    about:
      'A link to another lesson is its name relative to the lessons folder, as in [bends](first-bends) or [bends](first-bends.mdx).',
    message: ({ lesson }) => `There is no lesson “${lesson}” to link to.`,
    help: didYouMean,
  }),
  'link-page-unknown': error<Near & { path: string; idle?: boolean }>({
    about:
      'A link that begins with a slash leads to a page of the published site, as seen from the course’s first page. Techniques have a page where a published lesson teaches or uses them, and harps where one is played on them.',
    message: ({ path, idle }) =>
      `The site has no page ${path}${idle ? ', since no published lesson has to do with it' : ''}.`,
    help: (facts) =>
      facts.idle
        ? `Until one teaches it or plays it, ${facts.nearest} is there to link to.`
        : facts.path === '/glossary'
          ? 'The site has a glossary where the course has a file glossary.yaml with terms.'
          : (didYouMean(facts) ?? 'A link to a lesson is its name alone, as in [bends](first-bends).'),
  }),
  'link-page-anchor': error<Near & { path: string; place: string; known: readonly string[] }>({
    about: 'The part after # in a link to a page of the site is the id of a place on that page.',
    message: ({ path, place }) => `The page ${path} has no place with the id “${place}”.`,
    help: (facts) => didYouMean(facts) ?? `Its places are: ${listed(facts.known)}.`,
  }),
  'link-anchor-unknown': error<Near & { lesson: string; place: string; known: readonly string[] }>({
    about: 'The part after # in a link is the id of a block or a heading of that lesson.',
    message: ({ lesson, place }) => `The lesson “${lesson}” has neither a block nor a heading with the id “${place}”.`,
    help: (facts) =>
      didYouMean(facts) ??
      (facts.known.length > 0 && facts.known.length <= 8 ? `It has: ${listed(facts.known)}.` : undefined),
  }),
  'link-path': error<{
    why: 'empty' | 'machine' | 'backslash' | 'mail' | 'web';
    url: string;
    meant: string | undefined;
  }>({
    about:
      'A link is the name of a lesson, a path below media with slashes, or a whole address that begins with https: or mailto: .',
    message: ({ why, url }) => {
      if (why === 'empty') return 'Nothing is between the parentheses here, so it leads nowhere.';
      if (why === 'machine') return 'This is a path on one machine, which leads nowhere on a site.';
      if (why === 'backslash') return 'The steps of a path are divided by slashes here, not by backslashes.';
      return `“${url}” is the address of ${why === 'mail' ? 'a mailbox' : 'a site'} without its beginning.`;
    },
    help: ({ meant }) =>
      meant === undefined
        ? 'Write a lesson’s name, a path below media, or an address that begins with https: or mailto: .'
        : `Write ${meant}`,
    fix: ({ meant }, span) => (meant === undefined ? undefined : certainly(span, meant)),
  }),
  'link-draft': error<{ lesson: string }>({
    about: 'A draft is not published, so a link from a published lesson would lead nowhere.',
    message: ({ lesson }) => `The lesson “${lesson}” is a draft, so this link would lead nowhere.`,
    help: () => 'Remove draft: true there, or make this lesson a draft as well.',
  }),
  'link-unsafe': error<{ scheme: string }>({
    about: 'Links lead to lessons, to media of the course and to web or mail addresses.',
    message: ({ scheme }) => `A link cannot begin with “${scheme}”.`,
    help: () => 'Write a lesson’s name, a path below media, or an address that begins with https: or mailto: .',
  }),
  'media-missing': error<Near & { path: string; certain?: boolean }>({
    about: 'Pictures and recordings are in the course’s media folder and are named from there: media/harp.svg.',
    message: ({ path }) => `There is no file ${path} in the course.`,
    help: didYouMean,
    fix: meantInstead,
  }),
  'media-outside': error<Near & { path: string; certain?: boolean }>({
    about: 'Pictures and recordings are in the course’s media folder, or they would not be published.',
    message: ({ path }) => `“${path}” is not in the media folder, so it would not be published.`,
    help: (facts) => didYouMean(facts) ?? 'Move it to media and write media/… here.',
    fix: meantInstead,
  }),
  'media-remote': error<{ host: string }>({
    about: 'The other site learns of every student who opens the page, and the picture is gone when that site is.',
    message: ({ host }) => `The page would fetch this from ${host} whenever it is opened.`,
    help: () => 'Put a copy into the media folder, if its licence allows it.',
  }),
  'block-twice': error<{ id: string; line: number }>({
    about: 'Two blocks of a lesson share an id, so neither can be linked or quoted.',
    message: ({ id, line }) => `The block in line ${line} has the id “${id}” already.`,
    help: () => 'Give this one another id.',
  }),
  'former-in-use': error<{ kind: string; name: string }>({
    about: 'A former name leads to what is called otherwise now, so nothing may be called so.',
    message: ({ kind, name }) => `“${name}” is the name of a ${kind}, so it is no former name.`,
    help: () => 'Remove it here, or rename the other.',
  }),
  'former-twice': error<{ kind: string; name: string; other: string }>({
    about: 'A former name leads to one thing.',
    message: ({ kind, name, other }) => `“${name}” is a former name of the ${kind} “${other}” already.`,
    help: () => 'Remove it from one of the two.',
  }),
  'allow-unknown': error<Near & { code: string }>({
    about: 'An allow entry names the code of a finding.',
    message: ({ code }) => `There is no finding with the code “${code}”.`,
    help: didYouMean,
  }),
  'allow-error': error<{ code: string }>({
    about: 'An error cannot be allowed, only fixed.',
    message: ({ code }) => `“${code}” is an error, which cannot be allowed.`,
    help: () => 'Remove this entry and fix what the error points at.',
  }),
  'allow-unused': warning<{ code: string }>({
    about: 'An allow entry that ignores nothing would hide the finding if it came back.',
    message: ({ code }) => `This lesson has no finding “${code}”, so there is nothing to allow.`,
    help: () => 'Remove this entry.',
  }),
  'severity-unknown': error<Near & { code: string }>({
    about: 'The severity list of course.yaml names codes of findings.',
    message: ({ code }) => `There is no finding with the code “${code}”.`,
    help: didYouMean,
  }),
  'severity-error': error<{ code: string }>({
    about: 'The severity of an error cannot be changed.',
    message: ({ code }) => `“${code}” is always an error.`,
    help: () => 'Remove this line.',
  }),
} satisfies Catalogue;
