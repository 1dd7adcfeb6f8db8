/** Clips and their cues: values in braces, times, bars, and clips of the front matter. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a list without braces',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues=[{ at: '0:04' }] />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:33  mdx-syntax
         11 | <Clip src="media/head.mp3" cues=[{ at: '0:04' }] />
            |                                 ^^^^^^^^^^^^^^^^
        A list is in braces as well.
        Write cues={[…]}

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04' }]} />
      `,
    },
  },
  {
    what: 'a brace that is not closed',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' ]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:35  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' ]} />
            |                                   ^
        The { that begins here is not closed.
        Write its } where the group ends.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' } ]} />
      `,
    },
  },
  {
    what: 'the outer brace that is missing',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04' }] />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:33  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04' }] />
            |                                 ^
        The { that begins here is not closed.
        Write its } where the value ends.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04' }]} />
      `,
    },
  },
  {
    what: 'values without quotation marks',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: 0:04, block: walk, bars: 1-2 }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at: 0:04, block: walk, bars: 1-2 }]} />
            |                                         ^^^^
        “0:04” is no value: a text is in quotation marks.
        Write '0:04'.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk', bars: '1-2' }]} />
      `,
    },
  },
  {
    what: 'quotation marks of a word processor',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: ‘0:04’, block: ‘walk’ }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at: ‘0:04’, block: ‘walk’ }]} />
            |                                         ^^^^^^
        These are the quotation marks of a word processor.
        Write plain ones: '0:04'.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' }]} />
      `,
    },
  },
  {
    what: 'a comma that is missing',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04' block: 'walk' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:48  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04' block: 'walk' }]} />
            |                                                ^^^^^
        A comma is missing before this.
        Write a comma between two entries.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' }]} />
      `,
    },
  },
  {
    what: 'equals signs',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at='0:04', block='walk' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:39  mdx-syntax
         11 | <Clip src="media/head.mp3" cues={[{ at='0:04', block='walk' }]} />
            |                                       ^
        A colon is between a name and its value here, not an equals sign.
        Write a colon.

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'walk' }]} />
      `,
    },
  },
  {
    what: 'texts in the place of groups',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={['0:04', '0:10']} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:35  clip-cues
         11 | <Clip src="media/head.mp3" cues={['0:04', '0:10']} />
            |                                   ^^^^^^
        Cue 1 is no group of “key: value”.
        Write cues={[{ at: '1:42', block: 'head', bars: '5-8' }]}.

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'another name for the time',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ time: '0:04' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:37  clip-cues
         11 | <Clip src="media/head.mp3" cues={[{ time: '0:04' }]} />
            |                                     ^^^^
        Cue 1 has no use for “time”: it takes at, until, block, bars.
        Did you mean “at”?

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'a time with one digit of its seconds',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '1:5' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  warning clip-time-short
         11 | <Clip src="media/head.mp3" cues={[{ at: '1:5' }]} />
            |                                         ^^^^^
        “1:5” is read as 1:05.
        Write 1:05, or 1:50 if that is meant.

      1 lesson, 1 block: 1 warning.
    `,
  },
  {
    what: 'times with units',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '1m20s', until: '1m 30s' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  clip-time
         11 | <Clip src="media/head.mp3" cues={[{ at: '1m20s', until: '1m 30s' }]} />
            |                                         ^^^^^^^
        “1m20s” is no time of a clip.
        Write minutes and seconds: 1:20

      lessons/first.mdx:11:57  clip-time
         11 | <Clip src="media/head.mp3" cues={[{ at: '1m20s', until: '1m 30s' }]} />
            |                                                         ^^^^^^^^
        “1m 30s” is no time of a clip.
        Write minutes and seconds: 1:30

      1 lesson, 1 block: 2 errors.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '1:20', until: '1:30' }]} />
      `,
    },
  },
  {
    what: 'a comma in a time',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04,5' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  clip-time
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04,5' }]} />
            |                                         ^^^^^^^^
        “0:04,5” is no time of a clip.
        Write minutes and seconds: 0:04.5

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04.5' }]} />
      `,
    },
  },
  {
    what: 'too many seconds',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:75' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:41  clip-time
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:75' }]} />
            |                                         ^^^^^^
        “0:75” is no time of a clip.
        Write minutes and seconds: 1:15

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'a passage that ends before it begins',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:14', until: '0:10' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:56  clip-until
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:14', until: '0:10' }]} />
            |                                                        ^^^^^^
        This passage begins at 0:14 and is to end at 0:10.
        Write a later time, or leave “until” out: the passage then goes on to the next one.

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'bars in words',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', bars: '1 to 2' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:55  clip-bars
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04', bars: '1 to 2' }]} />
            |                                                       ^^^^^^^^
        “1 to 2” is neither a bar nor a run of bars.
        Write the first and the last: 1-2

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', bars: '1-2' }]} />
      `,
    },
  },
  {
    what: 'bars that the block has not',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', bars: '2-9' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:55  clip-bar
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04', bars: '2-9' }]} />
            |                                                       ^^^^^
        The block “walk” has no bar 9: it goes from bar 1 to bar 2.
        Name bars that it has, as in 1-2.

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'a block with a mistake in its name',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'wlak' }]} />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:11:56  clip-block
         11 | <Clip src="media/head.mp3" cues={[{ at: '0:04', block: 'wlak' }]} />
            |                                                        ^^^^^^
        This lesson has no block “wlak”.
        Did you mean “walk”?

      1 lesson, 1 block: 1 error.
    `,
  },
  {
    what: 'a clip of the front matter with a mistake in its name',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        clips:
          slow:
            src: media/head.mp3
        ---

        <Clip name="slwo" />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:8:13  clip-unknown
          8 | <Clip name="slwo" />
            |             ^^^^
        The front matter has no clip “slwo”.
        Did you mean “slow”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a clip that is only a file',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        clips:
          slow: media/head.mp3
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip name="slow" />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:4:9  value-wrong
          4 |   slow: media/head.mp3
            |         ^^^^^^^^^^^^^^
        “slow” is a group with src, and here is a text.
        Write { src: media/head.mp3 }

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        clips:
          slow: { src: media/head.mp3 }
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip name="slow" />
      `,
    },
  },
  {
    what: 'a key of a cue without a space behind its colon',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        clips:
          slow:
            src: media/head.mp3
            cues:
              - { at:0:04, block: walk }
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip name="slow" />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:7:11  key-unknown
          7 |       - { at:0:04, block: walk }
            |           ^^^^^^^
        There is no key “at:0:04” here.
        Write a space behind the colon: at: 0:04

      1 lesson, 1 block: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        clips:
          slow:
            src: media/head.mp3
            cues:
              - { at: 0:04, block: walk }
        ---

        ~~~tab
        id: walk
        slot: 1/4
        4 -4 5 -5 | 6 =3
        ~~~

        <Clip name="slow" />
      `,
    },
  },
  {
    what: 'a recording under another attribute',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <Clip file="media/head.mp3" />
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:5:7  component-key
          5 | <Clip file="media/head.mp3" />
            |       ^^^^
        <Clip> has no attribute “file”.
        Did you mean “src”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a recording between the tags',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <Clip>media/head.mp3</Clip>
      `,
      'media/head.mp3': 'x',
    },
    shown: typed`
      lessons/first.mdx:5:2  component-content
          5 | <Clip>media/head.mp3</Clip>
            |  ^^^^
        What is between <Clip> and </Clip> would not be shown.
        Write <Clip src="media/head.mp3" />

      1 lesson, 0 blocks: 1 error.
    `,
  },
];

testMistakes('clips and their cues', MISTAKES);
