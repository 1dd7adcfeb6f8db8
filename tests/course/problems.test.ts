/** Each thing that can be wrong with a course around its blocks: its code, the very place it points at, and its words. */
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { COURSE_PROBLEMS } from '../../src/course/problems.ts';
import type { Problem } from '../../src/diagnostics/place.ts';
import { DOCUMENT_PROBLEMS } from '../../src/document/problems.ts';
import { LESSON_PROBLEMS } from '../../src/lesson/problems.ts';
import { courseInMemory } from './files-in-memory.ts';
import { courseOf, folderOf, lesson } from './some-course.ts';

type Files = Readonly<Record<string, string | Uint8Array>>;
/** [place, code, what it says, the mend] */
type Told = readonly [string, string, string, string?];

const told = (problems: readonly Problem[]): Told[] =>
  problems.map(({ file, line, column, endLine, endColumn, code, message, help }) => {
    const place = `${file}:${line}:${column}-${endLine === line ? '' : `${endLine}:`}${endColumn}`;
    return help === undefined ? [place, code, message] : [place, code, message, help];
  });

const first = (text: string, front?: string): Files => ({ 'lessons/first.mdx': lesson(text, front) });
const front = (lines: string): Files => first('', lines);
const yaml = (text: string): Files => ({ 'course.yaml': text });

const GOOD = '```tab\nslot: 1/1\n4\n```\n';

/** What a file over a sound course is told; every code of the catalogue occurs here or below. */
const CASES: readonly (readonly [string, Files, readonly Told[]])[] = [
  // files
  [
    'bytes that are no UTF-8',
    {
      'lessons/first.mdx': Buffer.concat([Buffer.from('---\ntitle: Caf'), Buffer.from([0xe9]), Buffer.from('\n---\n')]),
    },
    [
      [
        'lessons/first.mdx:2:11-12',
        'file-not-utf8',
        'This is not UTF-8 text: the bytes here are no character.',
        'Save the file as UTF-8.',
      ],
    ],
  ],
  [
    'a NUL byte, even behind a byte order mark',
    first('One\0two'),
    [
      [
        'lessons/first.mdx:5:4-5',
        'file-control-character',
        'There is a control character here (NUL), which text does not hold.',
        'Delete it, or fetch the file again if it is damaged.',
      ],
    ],
  ],
  [
    'a recording under a lesson’s name',
    { 'lessons/talk.mdx': Buffer.alloc(2 ** 21 + 1, 7) },
    [
      [
        'lessons/talk.mdx:1:1-1',
        'file-too-long',
        'This file is longer than a text of a course can be (2 megabytes), so it was not read.',
        'Move pictures and recordings to the media folder, and divide a lesson that is really so long.',
      ],
    ],
  ],
  [
    'a name that is no address',
    { 'lessons/Überblasen & mehr.mdx': lesson() },
    [
      [
        'lessons/Überblasen & mehr.mdx:1:1-1',
        'lesson-name',
        '“Überblasen & mehr” cannot be part of an address: letters, digits, hyphens and underscores only.',
        'Rename it to uberblasen-mehr.',
      ],
    ],
  ],
  [
    'names that differ in capitals only',
    { 'lessons/First.mdx': lesson() },
    [
      [
        'lessons/first.mdx:1:1-1',
        'lesson-twice',
        'The lesson “first” has the same name as lessons/First.mdx.',
        'Rename one of the two.',
      ],
    ],
  ],
  [
    'a lesson that ends in .md',
    { 'lessons/second.md': lesson() },
    [
      [
        'lessons/second.md:1:1-1',
        'lesson-ending',
        'A file that ends in .md is not read as a lesson.',
        'If it is one, rename it to second.mdx .',
      ],
    ],
  ],
  // course.yaml and front matter
  [
    'a colon in a value',
    yaml('title: Bends: the first\n'),
    [
      [
        'course.yaml:1:8-24',
        'yaml-syntax',
        'A second colon in this line makes YAML see a key inside a value.',
        'Quote the value: title: "Bends: the first".',
      ],
    ],
  ],
  [
    'a sharp that YAML takes for a comment',
    front('title: One\nharp: F #'),
    [
      [
        'lessons/first.mdx:3:9-10',
        'yaml-comment',
        'The # here begins a comment, so “harp” is just “F”.',
        'Quote the value, or write a sharp right behind its letter: F# .',
      ],
    ],
  ],
  [
    'a title that is a comment',
    front('title: #1 in a row'),
    [
      ['lessons/first.mdx:2:1-6', 'key-missing', '“title” has no value.'],
      [
        'lessons/first.mdx:2:8-19',
        'yaml-comment',
        'The # here begins a comment, so “title” has no value.',
        'Quote the value, or write a sharp right behind its letter: F# .',
      ],
    ],
  ],
  [
    'a key given twice',
    front('title: One\nharp: A\nharp: C'),
    [['lessons/first.mdx:4:1-5', 'key-twice', 'The key “harp” stands twice.', 'Keep the one you mean.']],
  ],
  [
    'a key that nobody reads',
    front('title: One\ntuninig: richter'),
    [['lessons/first.mdx:3:1-8', 'key-unknown', 'There is no key “tuninig” here.', 'Did you mean “tuning”?']],
  ],
  [
    'a key that nobody reads inside a list',
    yaml('title: One\nstages:\n  - id: a\n    title: A\n    colour: blue\n'),
    [['course.yaml:5:5-11', 'key-unknown', 'There is no key “colour” here.', 'The keys are: id, title, summary.']],
  ],
  [
    'no title',
    front('harp: A'),
    [['lessons/first.mdx:2:1-1', 'key-missing', '“title” is missing.', 'Write a line title: …']],
  ],
  [
    'an entry that lacks its reason',
    front('title: One\nallow:\n  - code: allow-unused'),
    [['lessons/first.mdx:4:5-5', 'key-missing', '“reason” is missing.', 'Write a line reason: …']],
  ],
  [
    'a setting that no block takes',
    front('title: One\ntempo: brisk'),
    [
      [
        'lessons/first.mdx:3:8-13',
        'value-wrong',
        '“brisk” is no tempo.',
        'Write beats a minute as a number from 20 to 400.',
      ],
    ],
  ],
  [
    'a number out of its range',
    front('title: One\nminutes: none'),
    [['lessons/first.mdx:3:10-14', 'value-wrong', '“minutes” is a whole number from 1 to 600, not “none”.']],
  ],
  [
    'a form and chords at once',
    yaml('title: One\nform: twelve-bar\nchords: I7 | IV7\n'),
    [
      [
        'course.yaml:3:9-17',
        'value-wrong',
        'Chords are listed here, and a form is named as well.',
        'Keep either form or chords.',
      ],
    ],
  ],
  [
    'no front matter',
    { 'lessons/first.mdx': 'Hello.\n' },
    [
      [
        'lessons/first.mdx:1:1-1',
        'front-missing',
        'This lesson does not begin with front matter, so it has no title.',
        'Begin with three lines: --- , then title: … , then --- again.',
      ],
    ],
  ],
  [
    'front matter behind an empty line',
    { 'lessons/first.mdx': '\n---\ntitle: One\n---\n' },
    [
      [
        'lessons/first.mdx:1:1-1',
        'front-missing',
        'Something stands before the front matter, so it is not read as such.',
        'Move the --- into the very first line.',
      ],
    ],
  ],
  [
    'front matter that never ends',
    { 'lessons/first.mdx': '---\ntitle: One\n\nHello.\n' },
    [
      [
        'lessons/first.mdx:1:1-4',
        'front-open',
        'The front matter that begins here is not closed.',
        'Write a line of three hyphens --- after its last key.',
      ],
    ],
  ],
  [
    'a stage the course has not got',
    { ...yaml('title: One\nstages:\n  - {id: breath, title: Breath}\n'), ...front('title: One\nstage: breadth') },
    [['lessons/first.mdx:3:8-15', 'stage-unknown', 'course.yaml has no stage “breadth”.', 'Did you mean “breath”?']],
  ],
  [
    'a stage like none the course has',
    { ...yaml('title: One\nstages:\n  - {id: breath, title: Breath}\n'), ...front('title: One\nstage: two') },
    [['lessons/first.mdx:3:8-11', 'stage-unknown', 'course.yaml has no stage “two”.', 'The stages are: breath.']],
  ],
  [
    'a stage in a course without any',
    front('title: One\nstage: two'),
    [
      [
        'lessons/first.mdx:3:8-11',
        'stage-unknown',
        'course.yaml has no stage “two”.',
        'List it there under stages, with an id and a title.',
      ],
    ],
  ],
  [
    'a lesson required that is not there',
    { ...front('title: One\nrequires:\n  - secnod'), 'lessons/second.mdx': lesson() },
    [
      [
        'lessons/first.mdx:4:5-11',
        'requires-unknown',
        'There is no lesson “secnod” to require.',
        'Did you mean “second”?',
      ],
    ],
  ],
  [
    'a lesson required by its title',
    { ...front('title: One\nrequires: the second'), 'lessons/two.mdx': lesson('', 'title: The second') },
    [
      [
        'lessons/first.mdx:3:11-21',
        'requires-unknown',
        'There is no lesson “the second” to require.',
        'Did you mean “two”?',
      ],
    ],
  ],
  // text
  [
    'a component that is not closed',
    first('Text\n\n> <Clip src="https://example.org/a.mp4">\n'),
    [
      [
        'lessons/first.mdx:7:3-8',
        'mdx-syntax',
        'The component <Clip> that begins here is not closed.',
        'Close it: <Clip /> or </Clip>. For the sign itself write \\< .',
      ],
    ],
  ],
  [
    'an import',
    first('import Thing from "thing"\n'),
    [
      [
        'lessons/first.mdx:5:1-26',
        'lesson-code',
        'A lesson does not import anything.',
        'Remove the line: components are there without it. A line of text cannot begin with this word.',
      ],
    ],
  ],
  [
    'an expression',
    first('Play it {2 + 2} times.\n'),
    [
      [
        'lessons/first.mdx:5:9-16',
        'lesson-expression',
        '“{2 + 2}” is no value: braces hold a text in quotation marks, a number or, in an attribute, a list.',
        'For a brace in the text write \\{ .',
      ],
    ],
  ],
  [
    'an unknown component',
    first('Here: <HarpMpa /> and there.\n'),
    [
      [
        'lessons/first.mdx:5:8-15',
        'component-unknown',
        'There is no component <HarpMpa>.',
        'Did you mean “<HarpMap>”?',
      ],
    ],
  ],
  [
    'a component in small letters, which is no element of HTML either',
    first('<harpmap scale="blues" />\n'),
    [['lessons/first.mdx:5:2-9', 'component-unknown', 'There is no component <harpmap>.', 'Did you mean “<HarpMap>”?']],
  ],
  [
    'an unknown attribute',
    first('<BendLadder\n  hole="2"\n  titel="Down"\n/>\n'),
    [['lessons/first.mdx:7:3-8', 'component-key', '<BendLadder> has no attribute “titel”.', 'Did you mean “title”?']],
  ],
  [
    'a component with content, which would be lost',
    first('<BendLadder hole="2">Slowly.</BendLadder>\n'),
    [
      [
        'lessons/first.mdx:5:2-12',
        'component-content',
        'What stands between <BendLadder> and </BendLadder> would not be shown.',
        'Close it at once, <BendLadder … />, and write what belongs to the text below it.',
      ],
    ],
  ],
  [
    'an attribute left out',
    first('<BendLadder title="Down" />\n'),
    [['lessons/first.mdx:5:2-12', 'component-key-missing', '<BendLadder> needs the attribute “hole”.']],
  ],
  [
    'a script',
    first('<b onclick="go()">x</b>\n'),
    [
      [
        'lessons/first.mdx:5:4-11',
        'script-in-lesson',
        '“onclick” would run a script on the page, and a lesson carries none.',
        'Remove it.',
      ],
    ],
  ],
  [
    'a link to no lesson',
    { ...first('See [that](fisrt "title") one.\n') },
    [['lessons/first.mdx:5:12-17', 'link-unknown', 'There is no lesson “fisrt” to link to.', 'Did you mean “first”?']],
  ],
  [
    'a link to no page',
    first('[back](/techniqeus/slap)\n'),
    [
      [
        'lessons/first.mdx:5:8-24',
        'link-page-unknown',
        'The site has no page /techniqeus/slap.',
        'Did you mean “/techniques”?',
      ],
    ],
  ],
  [
    'a link to no place of a page',
    first('[back](/harps/#key)\n'),
    [
      [
        'lessons/first.mdx:5:8-19',
        'link-page-place',
        'The page /harps has no place with the id “key”.',
        'Did you mean “keys”?',
      ],
    ],
  ],
  [
    'a link to no block',
    first(`# The turn\n\n${GOOD}\n[back](#the-trun)\n`),
    [
      [
        'lessons/first.mdx:12:8-17',
        'link-place-unknown',
        'The lesson “first” has neither a block nor a heading with the id “the-trun”.',
        'Did you mean “the-turn”?',
      ],
    ],
  ],
  [
    'a link to a draft',
    { ...first('[soon](second.mdx)\n'), 'lessons/second.mdx': lesson('', 'title: Two\ndraft: true') },
    [
      [
        'lessons/first.mdx:5:8-18',
        'link-draft',
        'The lesson “second” is a draft, so this link would lead nowhere.',
        'Remove draft: true there, or make this lesson a draft as well.',
      ],
    ],
  ],
  [
    'a link that runs something',
    first('[go](javascript:alert(1))\n'),
    [
      [
        'lessons/first.mdx:5:6-25',
        'link-unsafe',
        'A link cannot begin with “javascript:”.',
        'Write a lesson’s name, a path below media, or an address that begins with https: or mailto: .',
      ],
    ],
  ],
  [
    'a picture that is not there',
    { ...first('![a harp](media/Harp.svg)\n'), 'media/harp.svg': '<svg/>' },
    [
      [
        'lessons/first.mdx:5:11-25',
        'media-missing',
        'There is no file media/Harp.svg in the course.',
        'Did you mean “media/harp.svg”?',
      ],
    ],
  ],
  [
    'a picture outside the media folder',
    first('![a harp](pictures/harp.svg)\n'),
    [
      [
        'lessons/first.mdx:5:11-28',
        'media-outside',
        '“pictures/harp.svg” does not lie in the media folder, so it would not be published.',
        'Move it to media and write media/… here.',
      ],
    ],
  ],
  [
    'a picture from elsewhere',
    first('![a harp](https://example.org/harp.svg)\n'),
    [
      [
        'lessons/first.mdx:5:11-39',
        'media-elsewhere',
        'The page would fetch this from example.org whenever it is opened.',
        'Put a copy into the media folder, if its licence allows it.',
      ],
    ],
  ],
  [
    'a picture without words',
    { ...first('> Here: ![ ](media/harp.svg)\n\n![A harp](media/harp.svg)\n'), 'media/harp.svg': '<svg/>' },
    [
      [
        'lessons/first.mdx:5:9-29',
        'picture-words',
        'This picture has no words for students who cannot see it.',
        'Write what is to be seen between the brackets. If it only decorates, write <img src="media/harp.svg" alt="" /> instead.',
      ],
    ],
  ],
  [
    'pictures as elements, of which one only decorates',
    {
      ...first(
        '<img src="media/harp.svg" />\n\n<img alt="" src="media/harp.svg" />\n\nAnd <img alt src="media/harp.svg" />\n',
      ),
      'media/harp.svg': '<svg/>',
    },
    ['lessons/first.mdx:5:2-5', 'lessons/first.mdx:9:6-9'].map(
      (place): Told => [
        place,
        'picture-words',
        'This picture has no words for students who cannot see it.',
        'Add alt="…" with what is to be seen, or alt="" if it only decorates.',
      ],
    ),
  ],
  [
    'a picture by reference without words',
    { ...first('![][harp]\n\n[harp]: media/harp.svg\n'), 'media/harp.svg': '<svg/>' },
    [
      [
        'lessons/first.mdx:5:1-10',
        'picture-words',
        'This picture has no words for students who cannot see it.',
        'Write what is to be seen between the brackets. If it only decorates, write <img src="…" alt="" /> instead.',
      ],
    ],
  ],
  // blocks
  [
    'a block that is not closed',
    first('```tab\n4 4 4 4\n'),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-open',
        'The block that begins here is not closed.',
        'Write a line of ``` after its last line.',
      ],
    ],
  ],
  [
    'a block that swallows the next one',
    first(`\`\`\`tab\n4 4 4 4\n\n${GOOD}`),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-open',
        'The block that begins here is not closed before another begins, 3 lines below.',
        'Write a line of ``` after its last line.',
      ],
    ],
  ],
  [
    'a fence with another word',
    first('```Tab\n4 4 4 4\n```\n'),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-word',
        'A fence marked “Tab” is shown as plain text.',
        'A block begins with ```tab .',
      ],
    ],
  ],
  [
    'settings behind the word',
    first('```tab harp: A\nslot: 1/1\n4\n```\n'),
    [
      [
        'lessons/first.mdx:5:8-15',
        'fence-rest',
        '“harp: A” behind the word tab is not read.',
        'Write settings as key: value lines at the top of the block.',
      ],
    ],
  ],
  [
    'two blocks of one id',
    first('```tab\nid: a\nslot: 1/1\n4\n```\n\n- ```tab\n  id:  a\n  slot: 1/1\n  4\n  ```\n'),
    [
      [
        'lessons/first.mdx:12:8-9',
        'block-twice',
        'The block in line 5 has the id “a” already.',
        'Give this one another id.',
      ],
    ],
  ],
  // findings
  [
    'an allowance of nothing known',
    front('title: One\nallow:\n  - code: fence-wrod\n    reason: So be it.'),
    [
      [
        'lessons/first.mdx:4:11-21',
        'allow-unknown',
        'There is no finding with the code “fence-wrod”.',
        'Did you mean “fence-word”?',
      ],
    ],
  ],
  [
    'an allowance of an error',
    front('title: One\nallow: {code: bar-too-long, reason: So be it.}'),
    [
      [
        'lessons/first.mdx:3:15-27',
        'allow-error',
        '“bar-too-long” is an error, which cannot be allowed.',
        'Remove this entry and mend what the error points at.',
      ],
    ],
  ],
  [
    'an allowance that silences nothing',
    front('title: One\nallow:\n  - reason: So be it.\n    code: fence-word'),
    [
      [
        'lessons/first.mdx:5:11-21',
        'allow-unused',
        'This lesson has no finding “fence-word”, so there is nothing to allow.',
        'Remove this entry.',
      ],
    ],
  ],
  [
    'a severity of nothing known',
    yaml('title: One\nseverity:\n  fence-wrod: error\n'),
    [
      [
        'course.yaml:3:3-13',
        'severity-unknown',
        'There is no finding with the code “fence-wrod”.',
        'Did you mean “fence-word”?',
      ],
    ],
  ],
  [
    'a severity of an error',
    yaml('title: One\nseverity:\n  bar-too-long: hint\n'),
    [['course.yaml:3:3-15', 'severity-error', '“bar-too-long” is an error and stays one.', 'Remove this line.']],
  ],
];

/** What a folder is told that is no sound course. */
const FOLDERS: readonly (readonly [string, () => string, readonly Told[]])[] = [
  [
    'is not there',
    () => '/no/such/folder',
    [
      [
        '.:1:1-1',
        'course-missing',
        'There is no course folder at /no/such/folder.',
        'Name the folder that holds course.yaml and lessons.',
      ],
    ],
  ],
  [
    'has no course.yaml',
    () => folderOf({ 'lessons/first.mdx': lesson() }),
    [
      [
        'course.yaml:1:1-1',
        'course-file-missing',
        'This folder has no course.yaml, so it is not yet a course.',
        'Write a file course.yaml with one line: title: …',
      ],
    ],
  ],
  [
    'has no lessons',
    () => folderOf({ 'course.yaml': 'title: A course\n' }),
    [
      [
        'lessons:1:1-1',
        'no-lessons',
        'This course has no lesson.',
        'Write the first one as lessons/first.mdx, beginning with the three lines --- , title: … and --- .',
      ],
    ],
  ],
  [
    'has a file that leads to itself, and one that leads nowhere',
    () => {
      const dir = courseOf();
      symlinkSync('round.mdx', join(dir, 'lessons/round.mdx'));
      symlinkSync('nowhere.mdx', join(dir, 'lessons/gone.mdx'));
      return dir;
    },
    [
      [
        'lessons/gone.mdx:1:1-1',
        'file-unreadable',
        'This cannot be read: it is a link to something that is not there.',
      ],
      ['lessons/round.mdx:1:1-1', 'file-unreadable', 'This cannot be read: it is a link that leads back to itself.'],
    ],
  ],
  [
    'has a folder for course.yaml',
    () => folderOf({ 'course.yaml/x': '', 'lessons/first.mdx': lesson() }),
    [['course.yaml:1:1-1', 'file-unreadable', 'This cannot be read: it is a folder.']],
  ],
];

/** Codes that some case is about. What another check says of a course beside them is that check's affair. */
const MET = new Set([...CASES, ...FOLDERS].flatMap(([, , wanted]) => wanted.map(([, code]) => code))).add(
  'course-not-folder',
);
const met = (problems: readonly Problem[]): Told[] => told(problems.filter(({ code }) => MET.has(code)));

describe('a course with', () => {
  test.each(CASES)('%s is told so', (_, files, wanted) => {
    expect(met(courseInMemory(files).problems)).toEqual(wanted);
  });
});

describe('a course folder that', () => {
  test.each(FOLDERS)('%s is told so', (_, dir, wanted) => {
    expect(met(loadCourse(dir()).problems)).toEqual(wanted);
  });
  test('is a file is told so', () => {
    const dir = join(folderOf({ file: '' }), 'file');
    expect(met(loadCourse(dir).problems)).toEqual([
      [
        '.:1:1-1',
        'course-not-folder',
        `${dir} is a file, and a course is a folder.`,
        'Name the folder that holds course.yaml and lessons.',
      ],
    ]);
  });
});

test('every code of the catalogue is met here', () => {
  const codes = [COURSE_PROBLEMS, DOCUMENT_PROBLEMS, LESSON_PROBLEMS].flatMap((catalogue) => Object.keys(catalogue));
  expect(codes.filter((code) => !MET.has(code))).toEqual([]);
});
