/** Front matter that is missing, late or drawn with other signs, and what follows from it elsewhere. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'no front matter in a lesson that others build on',
    files: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
      'lessons/first.mdx': typed`
        ---
        title: First
        stage: breath
        teaches: single-notes
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx': typed`
        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        stage: blues
        requires: second
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/second.mdx:1:1  front-matter-missing
          1 | ~~~tab
            | ^
        This lesson does not begin with front matter, so it has no title.
        Begin with three lines: --- , then title: … , then --- again.

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'an empty line before the front matter',
    files: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
      'lessons/first.mdx': typed`
        ---
        title: First
        stage: breath
        teaches: single-notes
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx':
        "\n---\ntitle: Second\nstage: breath\nrequires: first\nteaches: half-step-bends\n---\n\n~~~tab\nid: walk\nslot: 1/4\n4 -4 5 -3' | 6 =3\n~~~\n",
      'lessons/third.mdx': typed`
        ---
        title: Third
        stage: blues
        requires: second
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/second.mdx:1:1  front-matter-missing
          1 | 
            | ^
        Something is before the front matter, so it is not read as such.
        Move the --- into the very first line.

      3 lessons, 3 blocks: 1 error.
    `,
    fixed: {
      'lessons/second.mdx': typed`
        ---
        title: Second
        stage: breath
        requires: first
        teaches: half-step-bends
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
  },
  {
    what: 'a heading before the front matter',
    files: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
      'lessons/first.mdx': typed`
        # First

        ---
        title: First
        stage: breath
        teaches: single-notes
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx': typed`
        ---
        title: Second
        stage: breath
        requires: first
        teaches: half-step-bends
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        stage: blues
        requires: second
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  front-matter-missing
          3 | ---
            | ^^^
        Something is before the front matter, so it is not read as such.
        Move the --- into the very first line.

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'a first line that is missing',
    files: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
      'lessons/first.mdx': typed`
        ---
        title: First
        stage: breath
        teaches: single-notes
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx': typed`
        title: Second
        stage: breath
        requires: first
        teaches: half-step-bends
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        stage: blues
        requires: second
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/second.mdx:1:1  front-matter-missing
          1 | title: Second
            | ^^^^^^^^^^^^^
        The line of three hyphens that begins the front matter is missing.
        Write a line --- above this one.

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'front matter between lines of four hyphens',
    files: {
      'lessons/first.mdx': typed`
        ----
        title: One
        ----

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:1:1  front-matter-missing
          1 | ----
            | ^^^^
        Front matter begins with a line of exactly three hyphens, and this is another.
        Write ---

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
    what: 'front matter between dashes',
    files: {
      'lessons/first.mdx': typed`
        —
        title: One
        —

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:1:1  front-matter-missing
          1 | —
            | ^
        Front matter begins with a line of exactly three hyphens, and this is another.
        Write ---

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
    what: 'front matter between plus signs',
    files: {
      'lessons/first.mdx': typed`
        +++
        title = "One"
        +++

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:1:1  front-matter-missing
          1 | +++
            | ^^^
        Front matter begins with a line of exactly three hyphens, and this is another.
        Write ---

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "One"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'front matter that never ends',
    files: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
      'lessons/first.mdx': typed`
        ---
        title: First

        Hello.
      `,
      'lessons/second.mdx': typed`
        ---
        title: Second
        stage: breath
        requires: first
        teaches: half-step-bends
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
      'lessons/third.mdx': typed`
        ---
        title: Third
        stage: blues
        requires: second
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/first.mdx:1:1  front-matter-unclosed
          1 | ---
            | ^^^
        The front matter that begins here is not closed.
        Write a line of three hyphens --- after its last key.

      3 lessons, 2 blocks: 1 error.
    `,
  },
  {
    what: 'front matter that ends with two hyphens',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        --

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  front-matter-unclosed
          3 | --
            | ^^
        Front matter ends with a line of exactly three hyphens, and this is another.
        Write ---

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
];

testMistakes(
  'front matter that is missing, late or drawn with other signs, and what follows from it elsewhere',
  MISTAKES,
);
