/** Keys and values of YAML: names, numbers with units, yes and no, lists, keys in the wrong file. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a key with a capital',
    files: {
      'lessons/first.mdx': typed`
        ---
        Title: One
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:1  key-unknown
          2 | Title: One
            | ^^^^^
        There is no key “Title” here.
        Did you mean “title”?

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a key in quotation marks of a word processor',
    files: {
      'lessons/first.mdx': typed`
        ---
        “title”: One
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:1  key-unknown
          2 | “title”: One
            | ^^^^^^^
        There is no key ““title”” here.
        Did you mean “title”?

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Hello.
      `,
    },
  },
  {
    what: 'minutes with their unit',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: 10 min
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:10  value-wrong
          3 | minutes: 10 min
            |          ^^^^^^
        “minutes” is a whole number from 1 to 600, not “10 min”.
        Write the number alone: 10.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: 10
        ---

        Hello.
      `,
    },
  },
  {
    what: 'minutes in a word',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: about ten
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:10  value-wrong
          3 | minutes: about ten
            |          ^^^^^^^^^
        “minutes” is a whole number from 1 to 600, not “about ten”.
        Did you mean 10?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a number in quotation marks of a word processor',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: “10”
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:10  value-wrong
          3 | minutes: “10”
            |          ^^^^
        “minutes” is a whole number from 1 to 600, not ““10””.
        Write the number alone: 10.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: 10
        ---

        Hello.
      `,
    },
  },
  {
    what: 'hertz',
    files: {
      'course.yaml': typed`
        title: One
        concert-a: 442 Hz
      `,
    },
    shown: typed`
      course.yaml:2:12  value-wrong
          2 | concert-a: 442 Hz
            |            ^^^^^^
        “concert-a” is a number from 392 to 466, not “442 Hz”.
        Write the number alone: 442.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        concert-a: 442
      `,
    },
  },
  {
    what: 'yes in another language',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        draft: ja
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:8  value-wrong
          3 | draft: ja
            |        ^^
        “draft” is true or false, not “ja”.
        Write true.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        draft: true
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a date',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        date: 2026-11-28
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  key-unknown
          3 | date: 2026-11-28
            | ^^^^
        There is no key “date” here.
        The keys are: title, summary, stage, requires, teaches, minutes, draft, order, formerly, allow, clips, harp, tuning, position, key, meter, tempo, feel, slot, form, chords, mouth.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a key by another name',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        duration: 10
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  key-unknown
          3 | duration: 10
            | ^^^^^^^^
        There is no key “duration” here.
        Did you mean “minutes”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a key of a lesson in course.yaml',
    files: {
      'course.yaml': typed`
        title: One
        teaches: [single-notes]
      `,
    },
    shown: typed`
      course.yaml:2:1  key-unknown
          2 | teaches: [single-notes]
            | ^^^^^^^
        “teaches” is a key of the front matter of a lesson, and is not read here.
        Move it there.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a key of course.yaml in a lesson',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        language: de
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  key-unknown
          3 | language: de
            | ^^^^^^^^
        “language” is a key of course.yaml, and is not read here.
        Move it there.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a key of a block in a lesson',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        pickup: 1/4
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  key-unknown
          3 | pickup: 1/4
            | ^^^^^^
        “pickup” is a key of the head of a block, and is not read here.
        Move it there.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'words of the glossary in course.yaml',
    files: {
      'course.yaml': typed`
        title: One
        terms:
          - { term: riff, means: A short tune. }
      `,
    },
    shown: typed`
      course.yaml:2:1  key-unknown
          2 | terms:
            | ^^^^^
        “terms” is a key of glossary.yaml, and is not read here.
        Move it there.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a list without brackets',
    files: {
      'lessons/second.mdx': typed`
        ---
        title: Second
        ---

        Hello.
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        ---

        Hello.
      `,
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: second, third
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:11  value-wrong
          3 | requires: second, third
            |           ^^^^^^^^^^^^^
        “requires” is a list of names.
        Write it in brackets: [second, third].

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: [second, third]
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a list in parentheses',
    files: {
      'lessons/second.mdx': typed`
        ---
        title: Second
        ---

        Hello.
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        ---

        Hello.
      `,
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: (second, third)
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:11  value-wrong
          3 | requires: (second, third)
            |           ^^^^^^^^^^^^^^^
        “requires” is a list of names.
        Write it in brackets: [second, third].

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: [second, third]
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a list without commas',
    files: {
      'lessons/second.mdx': typed`
        ---
        title: Second
        ---

        Hello.
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        requires: second
        ---

        Hello.
      `,
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: second third
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:11  requires-unknown
          3 | requires: second third
            |           ^^^^^^^^^^^^
        There is no lesson “second third” to require.
        Write several in brackets: [second, third].

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: [second, third]
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a title that is a comment',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: # One
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:1  key-missing
          2 | title: # One
            | ^^^^^
        “title” has no value.
        A # after a space begins a comment. Quote the value: title: "One"

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a stage with a name in the place of its id',
    files: {
      'course.yaml': typed`
        title: One
        stages:
          - { name: breath, title: Breath }
      `,
    },
    shown: typed`
      course.yaml:3:7  key-unknown
          3 |   - { name: breath, title: Breath }
            |       ^^^^
        There is no key “name” here.
        Did you mean “id”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a list of names where groups are wanted',
    files: {
      'course.yaml': typed`
        title: One
        stages:
          - breath
      `,
    },
    shown: typed`
      course.yaml:3:5  value-wrong
          3 |   - breath
            |     ^^^^^^
        Each entry of “stages” is a group of “key: value” lines with id, title, summary, formerly.
        Write “- id: breath”, and “title: …” in a line below it.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a severity in another word',
    files: {
      'course.yaml': typed`
        title: One
        severity:
          difficulty-jump: none
      `,
    },
    shown: typed`
      course.yaml:3:20  value-wrong
          3 |   difficulty-jump: none
            |                    ^^^^
        “difficulty-jump” is one of error, warning, hint, off, not “none”.
        Did you mean “off”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
];

testMistakes('keys and values of yaml', MISTAKES);
