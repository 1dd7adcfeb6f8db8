/** Names of files and folders. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a lesson with a space and capitals in its name',
    files: {
      'lessons/Lesson One.mdx': typed`
        ---
        title: One
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/Lesson One.mdx:1:1  lesson-name
          1 | ---
            | ^
        “Lesson One” cannot be part of an address: letters, digits, hyphens and underscores only.
        Rename it to lesson-one.

      2 lessons, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a lesson that a text editor named',
    files: {
      'lessons/first.mdx.txt': typed`
        ---
        title: One
        ---

        Hello.
      `,
      'lessons/second.mdx': typed`
        ---
        title: Two
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx.txt:1:1  warning lesson-extension
        A file that ends in .mdx.txt is not read as a lesson.
        If it is one, rename it to first.mdx .

      2 lessons, 0 blocks: 1 warning.
    `,
  },
  {
    what: 'a lesson beside the folder of the lessons',
    files: {
      'second.mdx': typed`
        ---
        title: Two
        ---

        Hello.
      `,
    },
    shown: typed`
      second.mdx:1:1  warning file-misplaced
        second.mdx is not read.
        If it belongs to the course, it is called lessons/second.mdx.

      1 lesson, 0 blocks: 1 warning.
    `,
  },
  {
    what: 'a glossary with another ending',
    files: {
      'glossary.yml': typed`
        terms: []
      `,
    },
    shown: typed`
      glossary.yml:1:1  warning file-misplaced
        glossary.yml is not read.
        If it belongs to the course, it is called glossary.yaml.

      1 lesson, 0 blocks: 1 warning.
    `,
  },
  {
    what: 'a media folder with a capital',
    files: {
      'Media/harp.svg': '<svg/>',
    },
    shown: typed`
      Media:1:1  warning file-misplaced
        Media is not read.
        If it belongs to the course, it is called media.

      1 lesson, 0 blocks: 1 warning.
    `,
  },
];

testMistakes('names of files and folders', MISTAKES);
