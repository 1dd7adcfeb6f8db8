/** The glossary and the techniques of a course: files of another shape, words that are there twice, rules. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a glossary that is a list',
    files: {
      'glossary.yaml': typed`
        - term: riff
          means: A short tune.
      `,
    },
    shown: typed`
      glossary.yaml:1:1  value-wrong
          1 | - term: riff
            | ^^^^^^^^^^^^
        This file is a group of “key: value” lines with terms.
        Begin the file with a line “terms:” above the list.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'words as keys',
    files: {
      'glossary.yaml': typed`
        terms:
          riff: A short tune.
      `,
    },
    shown: typed`
      glossary.yaml:2:3  value-wrong
          2 |   riff: A short tune.
            |   ^^^^^^^^^^^^^^^^^^^
        Each entry of “terms” is a group of “key: value” lines with term, means, also.
        Write “- term: riff”, and “means: A short tune.” in a line below it.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'another name for a key',
    files: {
      'glossary.yaml': typed`
        terms:
          - term: riff
            definition: A short tune.
      `,
    },
    shown: typed`
      glossary.yaml:3:5  key-unknown
          3 |     definition: A short tune.
            |     ^^^^^^^^^^
        There is no key “definition” here.
        Did you mean “means”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a word twice',
    files: {
      'glossary.yaml': typed`
        terms:
          - { term: riff, means: A short tune. }
          - { term: Riff, means: Another. }
      `,
    },
    shown: typed`
      glossary.yaml:3:13  term-twice
          3 |   - { term: Riff, means: Another. }
            |             ^^^^
        “Riff” is in the glossary already, as a word or under “also”.
        Keep one of the two.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'other words in one text',
    files: {
      'glossary.yaml': typed`
        terms:
          - term: riff
            means: A short tune.
            also: riffs, licks
      `,
    },
    shown: typed`
      glossary.yaml:4:11  value-wrong
          4 |     also: riffs, licks
            |           ^^^^^^^^^^^^
        “also” is a list of names.
        Write it in brackets: [riffs, licks].

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'glossary.yaml': typed`
        terms:
          - term: riff
            means: A short tune.
            also: [riffs, licks]
      `,
    },
  },
  {
    what: 'techniques as keys',
    files: {
      'techniques.yaml': typed`
        techniques:
          riff:
            title: Riffs
      `,
    },
    shown: typed`
      techniques.yaml:2:3  value-wrong
          2 |   riff:
            |   ^^^^^
        Each entry of “techniques” is a group of “key: value” lines.
        Write “- id: riff”, and “title: …” in a line below it.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a technique that lacks most of it',
    files: {
      'techniques.yaml': typed`
        techniques:
          - id: riff
            title: Riffs
      `,
    },
    shown: typed`
      techniques.yaml:2:9  technique-incomplete
          2 |   - id: riff
            |         ^^^^
        The technique “riff” is new, and has no about, no group, no find.
        Write the lines about: … and group: … and find: …

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a family with a mistake in its name',
    files: {
      'techniques.yaml': typed`
        techniques:
          - id: riff
            title: Riffs
            about: A short tune.
            group: tme
            find: not-in-score
      `,
    },
    shown: typed`
      techniques.yaml:5:12  value-wrong
          5 |     group: tme
            |            ^^^
        “group” is one of tone, mouth, breath, reach, bends, overbends, ornament, time, harmony, not “tme”.
        Did you mean “time”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a technique with a mistake in its name in a sentence',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Use <Technique>vibratto</Technique> here.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:16  technique-not-known
          5 | Use <Technique>vibratto</Technique> here.
            |                ^^^^^^^^
        There is no technique “vibratto”.
        Did you mean “vibrato”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a word that no glossary has',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Play the <Term>riff</Term> again.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:16  term-not-known
          5 | Play the <Term>riff</Term> again.
            |                ^^^^
        The course has no glossary that explains “riff”.
        Make a file glossary.yaml beside course.yaml: a line “terms:”, then “- term: riff”, and below that “means: …” with what it means.

      1 lesson, 0 blocks: 1 error.
    `,
  },
];

testMistakes('the glossary and the techniques of a course', MISTAKES);
