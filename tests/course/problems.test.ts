/** Each thing that can be wrong with a course around its blocks: its code, the very place it points at, and its words. */
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { COURSE_PROBLEMS } from '../../src/course/problems.ts';
import { FORMER_CASES } from './former-cases.ts';
import {
  codesOf,
  first,
  frontMatter,
  GOOD,
  type ProblemCase,
  problemsIn,
  type Reported,
  reported,
  yaml,
} from './problem-case.ts';
import { courseOf, folderOf, lesson } from './some-course.ts';

const CASES: readonly ProblemCase[] = [
  ...FORMER_CASES,
  [
    'bytes that are no UTF-8',
    {
      'lessons/first.mdx': Buffer.concat([Buffer.from('---\ntitle: Caf'), Buffer.from([0xe9]), Buffer.from('\n---\n')]),
    },
    [
      [
        'lessons/first.mdx:2:11-12',
        'file-not-utf8',
        'This is not UTF-8 text: the bytes here are not a character.',
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
        'There is a control character here (NUL), which does not belong in text.',
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
        'lesson-extension',
        'A file that ends in .md is not read as a lesson.',
        'If it is one, rename it to second.mdx .',
      ],
    ],
  ],
  [
    'a stage the course has not got',
    { ...yaml('title: One\nstages:\n  - {id: breath, title: Breath}\n'), ...frontMatter('title: One\nstage: breadth') },
    [['lessons/first.mdx:3:8-15', 'stage-unknown', 'course.yaml has no stage “breadth”.', 'Did you mean “breath”?']],
  ],
  [
    'a stage like none the course has',
    { ...yaml('title: One\nstages:\n  - {id: breath, title: Breath}\n'), ...frontMatter('title: One\nstage: two') },
    [['lessons/first.mdx:3:8-11', 'stage-unknown', 'course.yaml has no stage “two”.', 'The stages are: breath.']],
  ],
  [
    'a stage in a course without any',
    frontMatter('title: One\nstage: two'),
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
    { ...frontMatter('title: One\nrequires:\n  - secnod'), 'lessons/second.mdx': lesson() },
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
    { ...frontMatter('title: One\nrequires: the second'), 'lessons/two.mdx': lesson('', 'title: The second') },
    [
      [
        'lessons/first.mdx:3:11-21',
        'requires-unknown',
        'There is no lesson “the second” to require.',
        'Did you mean “two”?',
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
        'link-page-anchor',
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
        'lessons/first.mdx:12:9-17',
        'link-anchor-unknown',
        'The lesson “first” has neither a block nor a heading with the id “the-trun”.',
        'Did you mean “the-turn”?',
      ],
    ],
  ],
  [
    'a link to a site without its beginning',
    first('[a talk](www.example.org)\n'),
    [
      [
        'lessons/first.mdx:5:10-25',
        'link-path',
        '“www.example.org” is the address of a site without its beginning.',
        'Write https://www.example.org',
      ],
    ],
  ],
  [
    'a glossary under another name',
    { 'glossary.yml': 'terms: []\n' },
    [
      [
        'glossary.yml:1:1-1',
        'file-misplaced',
        'glossary.yml is not read.',
        'If it belongs to the course, it is called glossary.yaml.',
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
        '“pictures/harp.svg” is not in the media folder, so it would not be published.',
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
        'media-remote',
        'The page would fetch this from example.org whenever it is opened.',
        'Put a copy into the media folder, if its licence allows it.',
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
  [
    'an allowance of nothing known',
    frontMatter('title: One\nallow:\n  - code: fence-wrod\n    reason: So be it.'),
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
    frontMatter('title: One\nallow: {code: bar-too-long, reason: So be it.}'),
    [
      [
        'lessons/first.mdx:3:15-27',
        'allow-error',
        '“bar-too-long” is an error, which cannot be allowed.',
        'Remove this entry and fix what the error points at.',
      ],
    ],
  ],
  [
    'an allowance that silences nothing',
    frontMatter('title: One\nallow:\n  - reason: So be it.\n    code: fence-word'),
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
    [['course.yaml:3:3-15', 'severity-error', '“bar-too-long” is always an error.', 'Remove this line.']],
  ],
];

/** Folders that are no sound course. */
const FOLDERS: readonly (readonly [string, () => string, readonly Reported[]])[] = [
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

const CODES = new Set([...codesOf(CASES), ...codesOf(FOLDERS), 'course-not-folder']);

describe('a course with', () => {
  test.each(CASES)('%s', (_, files, wanted) => {
    expect(problemsIn(files, CASES)).toEqual(wanted);
  });
});

describe('a course folder that', () => {
  test.each(FOLDERS)('%s', (_, dir, wanted) => {
    expect(reported(loadCourse(dir()).problems, CODES)).toEqual(wanted);
  });
  test('is a file', () => {
    const dir = join(folderOf({ file: '' }), 'file');
    expect(reported(loadCourse(dir).problems, CODES)).toEqual([
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
  expect(Object.keys(COURSE_PROBLEMS).filter((code) => !CODES.has(code))).toEqual([]);
});
