/** The path: requirements, techniques, stages, cycles and new lessons. One mistake is reported once, at its place. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a new lesson that comes first by its name',
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
      'lessons/about.mdx': typed`
        ---
        title: About
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/about.mdx:2:8  warning lesson-unreached
          2 | title: About
            |        ^^^^^
        Nothing leads to this lesson: it requires no other, and the course begins with “first”.
        Write a line requires: … with the lesson it comes after, such as requires: third

      4 lessons, 3 blocks: 1 warning.
    `,
  },
  {
    what: 'a line for requirements that is empty',
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
        requires:
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/third.mdx:4:1  warning lesson-unreached
          4 | requires:
            | ^^^^^^^^
        Nothing leads to this lesson: it requires no other, and the course begins with “first”.
        Write a line requires: … with the lesson it comes after, such as requires: second

      3 lessons, 2 blocks: 1 warning.
    `,
  },
  {
    what: 'a technique with a mistake in its name',
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
        ---
        title: Second
        stage: breath
        requires: first
        teaches: half-step-bnds
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
      lessons/second.mdx:5:10  teaches-unknown
          5 | teaches: half-step-bnds
            |          ^^^^^^^^^^^^^^
        There is no technique “half-step-bnds” to teach.
        Did you mean “half-step-bends”?

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'a technique that nobody knows',
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
        ---
        title: Second
        stage: breath
        requires: first
        teaches: wobbling
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
      lessons/second.mdx:5:10  teaches-unknown
          5 | teaches: wobbling
            |          ^^^^^^^^
        There is no technique “wobbling” to teach.
        The command reedway techniques lists those there are; techniques.yaml adds your own.

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'a technique by its title',
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
        teaches: Single notes
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
      lessons/first.mdx:4:10  teaches-unknown
          4 | teaches: Single notes
            |          ^^^^^^^^^^^^
        There is no technique “Single notes” to teach.
        Did you mean “single-notes”?

      3 lessons, 3 blocks: 1 error.
    `,
    fixed: {
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
    },
  },
  {
    what: 'a stage by its title',
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
        stage: Blues
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
      lessons/third.mdx:3:8  stage-unknown
          3 | stage: Blues
            |        ^^^^^
        course.yaml has no stage “Blues”.
        Did you mean “blues”?

      3 lessons, 3 blocks: 1 error.
    `,
    fixed: {
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
  },
  {
    what: 'a comma behind each value',
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
        stage: blues,
        requires: second,
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/third.mdx:3:8  stage-unknown
          3 | stage: blues,
            |        ^^^^^^
        course.yaml has no stage “blues,”.
        Did you mean “blues”?

      lessons/third.mdx:4:11  requires-unknown
          4 | requires: second,
            |           ^^^^^^^
        There is no lesson “second,” to require.
        Did you mean “second”?

      3 lessons, 3 blocks: 2 errors.
    `,
    fixed: {
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
  },
  {
    what: 'a lesson with a mistake in its name',
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
        ---
        title: Second
        stage: breath
        requires: frist
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
      lessons/second.mdx:4:11  requires-unknown
          4 | requires: frist
            |           ^^^^^
        There is no lesson “frist” to require.
        Did you mean “first”?

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'a lesson by its file',
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
        ---
        title: Second
        stage: breath
        requires: ./first.mdx
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
      lessons/second.mdx:4:11  requires-unknown
          4 | requires: ./first.mdx
            |           ^^^^^^^^^^^
        There is no lesson “./first.mdx” to require.
        Did you mean “first”?

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
    what: 'a misspelled key',
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
        ---
        title: Second
        stage: breath
        require: first
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
      lessons/second.mdx:4:1  key-unknown
          4 | require: first
            | ^^^^^^^
        There is no key “require” here.
        Did you mean “requires”?

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'a line that cannot be read',
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
        ---
        title: Second
        stage breath
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
      lessons/second.mdx:3:1  yaml-syntax
          3 | stage breath
            | ^^^^^^^^^^^^
        This line is no “key: value”.
        Write a colon behind the key: stage: breath

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
    what: 'a cycle',
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
        requires: third
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
      lessons/first.mdx:4:11  path-cycle
          4 | requires: third
            |           ^^^^^
        These lessons need each other in a cycle: “first” requires “third” requires “second” requires “first”.
        Remove one of these requirements or quotations.

      3 lessons, 3 blocks: 1 error.
    `,
  },
  {
    what: 'stages that cannot be read',
    files: {
      'course.yaml': typed`
        title: A
        stages
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
      course.yaml:2:1  yaml-syntax
          2 | stages
            | ^^^^^^
        This line is no “key: value”.
        Write stages:

      3 lessons, 3 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: A
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
    },
  },
];

testMistakes('the path', MISTAKES);
