/** What follows from one mistake elsewhere in a course, and is not reported beside it. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'settings in front matter that never ends',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: First
        harp: A
        slot: 1/8

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:1:1  front-matter-unclosed
          1 | ---
            | ^^^
        The front matter that begins here is not closed.
        Write a line of three hyphens --- after its last key.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a form of a course file that cannot be read',
    files: {
      'course.yaml': typed`
        title: A
        forms:
          mill-four: I7 | IV7 | V7 | I7
            harp: A
      `,
      'lessons/first.mdx': typed`
        ---
        title: First
        ---

        ~~~tab
        id: walk
        slot: 1/4
        form: mill-fore
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx': typed`
        ---
        title: Second
        form: mill-fore
        ---

        Hello.
      `,
    },
    shown: typed`
      course.yaml:4:5  yaml-syntax
          4 |     harp: A
            |     ^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with 2 spaces, as that one.

      2 lessons, 1 block: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: A
        forms:
          mill-four: I7 | IV7 | V7 | I7
          harp: A
      `,
    },
  },
  {
    what: 'techniques of a file that cannot be read',
    files: {
      'techniques.yaml': typed`
        techniques:
          - id: heron
            title: Heron
             about: Stands still.
      `,
      'lessons/first.mdx': typed`
        ---
        title: First
        teaches: herring
        ---

        Play a <Technique>herring</Technique>.
      `,
    },
    shown: typed`
      techniques.yaml:4:6  yaml-syntax
          4 |      about: Stands still.
            |      ^^^^^^^^^^^^^^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with 4 spaces, as that one.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'techniques.yaml': typed`
        techniques:
          - id: heron
            title: Heron
            about: Stands still.
      `,
    },
  },
  {
    what: 'a fence with another word, in a lesson that teaches what is in the block',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: First
        teaches: [single-notes, half-step-bends]
        ---

        ~~~Tab
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/first.mdx:6:1  warning fence-word
          6 | ~~~Tab
            | ^^^^^^
        A fence marked “Tab” is shown as plain text.
        A block begins with \`\`\`tab .

      1 lesson, 0 blocks: 1 warning.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: First
        teaches: [single-notes, half-step-bends]
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
    what: 'a fence without a word, in a lesson that teaches what is in the block',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: First
        teaches: [single-notes, half-step-bends]
        ---

        ~~~
        id: walk
        slot: 1/4
        4 -4 5 -3' | 6 =3
        ~~~
      `,
    },
    shown: typed`
      lessons/first.mdx:6:1  warning block-lost
          6 | ~~~
            | ^^^
        This reads as a block, and is shown as plain text: its first line has no word tab.
        Begin it with a line \`\`\`tab .

      1 lesson, 0 blocks: 1 warning.
    `,
  },
  {
    what: 'a fence that is not closed, before blocks that are named elsewhere',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: First
        ---

        <Clip src="media/head.mp3" cues={[{ at: '0:01', block: 'stroll', bars: '1-2' }]} />

        ~~~tab
        id: call
        slot: 1/4
        <:stroll> | <:walk>
        ~~~

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3

        ~~~tab
        id: stroll
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~
      `,
      'lessons/second.mdx': typed`
        ---
        title: Second
        ---

        ~~~tab
        id: call
        slot: 1/4
        <first/stroll> | <first/walk>
        ~~~
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:1  fence-unclosed
         13 | ~~~tab
            | ^^^^^^
        The block that begins here is not closed before another begins, 5 lines below.
        Write a line of \`\`\` after its last line.

      2 lessons, 3 blocks: 1 error.
    `,
  },
];

testMistakes('what follows from one mistake elsewhere', MISTAKES);
