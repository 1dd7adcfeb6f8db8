/** Each thing that can be wrong with the YAML of a course: its code, the very place it points at, and its words. */
import { describe, expect, test } from 'vitest';
import { DOCUMENT_PROBLEMS } from '../../src/document/problems.ts';
import { codesOf, frontMatter, type ProblemCase, problemsIn, yaml } from '../course/problem-case.ts';

const HASH_HELP = 'Quote the value, or write a sharp right after its letter: F# . A comment has a space after its # .';

const CASES: readonly ProblemCase[] = [
  // course.yaml and front matter
  [
    'a colon in a value',
    yaml('title: Bends: the first\n'),
    [
      [
        'course.yaml:1:8-24',
        'yaml-syntax',
        'A second colon in this line makes YAML see a key inside a value.',
        'Quote the value: title: "Bends: the first"',
      ],
    ],
  ],
  [
    'a sharp that YAML takes for a comment',
    frontMatter('title: One\nharp: F #'),
    [['lessons/first.mdx:3:9-10', 'yaml-comment', 'The # here begins a comment, so “harp” is just “F”.', HASH_HELP]],
  ],
  [
    'a title that is a comment',
    frontMatter('title: #1 in a row'),
    [
      ['lessons/first.mdx:2:1-6', 'key-missing', '“title” has no value.'],
      ['lessons/first.mdx:2:8-19', 'yaml-comment', 'The # here begins a comment, so “title” has no value.', HASH_HELP],
    ],
  ],
  [
    'a sharp numeral that YAML takes for a comment',
    frontMatter('title: One\nchords: I7 | #IVdim7'),
    [
      [
        'lessons/first.mdx:3:14-21',
        'yaml-comment',
        'The # here begins a comment, so “chords” is just “I7 |”.',
        HASH_HELP,
      ],
    ],
  ],
  [
    'a form cut by a comment',
    yaml('title: One\nforms:\n  vamp: I7 | #IVdim7\n'),
    [['course.yaml:3:14-21', 'yaml-comment', 'The # here begins a comment, so “vamp” is just “I7 |”.', HASH_HELP]],
  ],
  [
    'a number in a title',
    frontMatter('title: Take #2'),
    [
      [
        'lessons/first.mdx:2:13-15',
        'yaml-comment',
        'The # here begins a comment, so “title” is just “Take”.',
        HASH_HELP,
      ],
    ],
  ],
  [
    'a key that objects of the program cannot hold',
    yaml('title: One\nseverity:\n  __proto__: warning\nforms:\n  __proto__: I7\n'),
    [
      ['course.yaml:3:3-12', 'key-reserved', 'Nothing can be called “__proto__” here.', 'Choose another name.'],
      ['course.yaml:5:3-12', 'key-reserved', 'Nothing can be called “__proto__” here.', 'Choose another name.'],
    ],
  ],
  [
    'a key given twice',
    frontMatter('title: One\nharp: A\nharp: C'),
    [['lessons/first.mdx:4:1-5', 'key-twice', 'The key “harp” appears twice.', 'Keep the one you mean.']],
  ],
  [
    'a key that nobody reads',
    frontMatter('title: One\ntuninig: richter'),
    [['lessons/first.mdx:3:1-8', 'key-unknown', 'There is no key “tuninig” here.', 'Did you mean “tuning”?']],
  ],
  [
    'a key that nobody reads inside a list',
    yaml('title: One\nstages:\n  - id: a\n    title: A\n    colour: blue\n'),
    [
      [
        'course.yaml:5:5-11',
        'key-unknown',
        'There is no key “colour” here.',
        'The keys are: id, title, summary, formerly.',
      ],
    ],
  ],
  [
    'no title',
    frontMatter('harp: A'),
    [['lessons/first.mdx:2:1-1', 'key-missing', '“title” is missing.', 'Write a line title: …']],
  ],
  [
    'an entry that lacks its reason',
    frontMatter('title: One\nallow:\n  - code: allow-unused'),
    [['lessons/first.mdx:4:5-5', 'key-missing', '“reason” is missing.', 'Write a line reason: …']],
  ],
  [
    'a setting that no block takes',
    frontMatter('title: One\ntempo: brisk'),
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
    frontMatter('title: One\nminutes: none'),
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
];

describe('a course with', () => {
  test.each(CASES)('%s', (_, files, wanted) => {
    expect(problemsIn(files, CASES)).toEqual(wanted);
  });
});

test('every code of the catalogue is met here', () => {
  expect(Object.keys(DOCUMENT_PROBLEMS).filter((code) => !codesOf(CASES).has(code))).toEqual([]);
});
