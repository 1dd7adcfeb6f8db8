/** Links and pictures: paths of other shapes, files by other names, places in lessons, signs that are missing. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a lesson that ends in .md',
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

        ## The turn

        [the turn](../blues/turn.md)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:12  link-unknown
         13 | [the turn](../blues/turn.md)
            |            ^^^^^^^^^^^^^^^^
        There is no lesson “blues/turn.md” to link to.
        Did you mean “blues/turn”?

      2 lessons, 1 block: 1 error.
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

        ## The turn

        [the turn](blues/turn)
      `,
    },
  },
  {
    what: 'a lesson as a page of the site',
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

        ## The turn

        [the turn](/blues/turn)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:12  link-page-unknown
         13 | [the turn](/blues/turn)
            |            ^^^^^^^^^^^
        The site has no page /blues/turn.
        Did you mean “blues/turn”?

      2 lessons, 1 block: 1 error.
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

        ## The turn

        [the turn](blues/turn)
      `,
    },
  },
  {
    what: 'backslashes',
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

        ## The turn

        [the turn](..\blues\turn.mdx) ![A harp](media\harp.svg)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:12  link-path
         13 | [the turn](..\blues\turn.mdx) ![A harp](media\harp.svg)
            |            ^^^^^^^^^^^^^^^^^
        The steps of a path are divided by slashes here, not by backslashes.
        Write blues/turn

      lessons/first.mdx:13:41  link-path
         13 | [the turn](..\blues\turn.mdx) ![A harp](media\harp.svg)
            |                                         ^^^^^^^^^^^^^^
        The steps of a path are divided by slashes here, not by backslashes.
        Write media/harp.svg

      2 lessons, 1 block: 2 errors.
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

        ## The turn

        [the turn](blues/turn) ![A harp](media/harp.svg)
      `,
    },
  },
  {
    what: 'a path on one machine',
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

        ## The turn

        [the turn](C:\Users\ada\course\lessons\blues\turn.mdx) ![A harp](/home/ada/course/media/harp.svg)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:12  link-path
         13 | [the turn](C:\Users\ada\course\lessons\blues\turn.mdx) ![A harp](/home/ada/course/media/harp.svg)
            |            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
        This is a path on one machine, which leads nowhere on a site.
        Write blues/turn

      lessons/first.mdx:13:66  link-path
         13 | …turn](C:\Users\ada\course\lessons\blues\turn.mdx) ![A harp](/home/ada/course/media/harp.svg)
            |                                                              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
        This is a path on one machine, which leads nowhere on a site.
        Write media/harp.svg

      2 lessons, 1 block: 2 errors.
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

        ## The turn

        [the turn](blues/turn) ![A harp](media/harp.svg)
      `,
    },
  },
  {
    what: 'a web address without its beginning',
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

        ## The turn

        [a talk](www.example.org/talk)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:10  link-path
         13 | [a talk](www.example.org/talk)
            |          ^^^^^^^^^^^^^^^^^^^^
        “www.example.org/talk” is the address of a site without its beginning.
        Write https://www.example.org/talk

      2 lessons, 1 block: 1 error.
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

        ## The turn

        [a talk](https://www.example.org/talk)
      `,
    },
  },
  {
    what: 'a mail address without its beginning',
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

        ## The turn

        [me](ada@example.org)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:6  link-path
         13 | [me](ada@example.org)
            |      ^^^^^^^^^^^^^^^
        “ada@example.org” is the address of a mailbox without its beginning.
        Write mailto:ada@example.org

      2 lessons, 1 block: 1 error.
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

        ## The turn

        [me](mailto:ada@example.org)
      `,
    },
  },
  {
    what: 'a link to nothing',
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

        ## The turn

        [the turn]()
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:12  link-path
         13 | [the turn]()
            |            ^
        Nothing is between the parentheses here, so it leads nowhere.
        Write a lesson’s name, a path below media, or an address that begins with https: or mailto: .

      2 lessons, 1 block: 1 error.
    `,
  },
  {
    what: 'a file with a capital',
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

        ## The turn

        ![A harp](media/Harp.svg)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:11  media-missing
         13 | ![A harp](media/Harp.svg)
            |           ^^^^^^^^^^^^^^
        There is no file media/Harp.svg in the course.
        Did you mean “media/harp.svg”?

      2 lessons, 1 block: 1 error.
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

        ## The turn

        ![A harp](media/harp.svg)
      `,
    },
  },
  {
    what: 'a file without its folder',
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

        ## The turn

        ![A reed](reed.png)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:11  media-outside
         13 | ![A reed](reed.png)
            |           ^^^^^^^^
        “reed.png” is not in the media folder, so it would not be published.
        Did you mean “media/deep/reed.png”?

      2 lessons, 1 block: 1 error.
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

        ## The turn

        ![A reed](media/deep/reed.png)
      `,
    },
  },
  {
    what: 'a file with another ending',
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

        ## The turn

        ![A harp](media/harp.png)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:11  media-missing
         13 | ![A harp](media/harp.png)
            |           ^^^^^^^^^^^^^^
        There is no file media/harp.png in the course.
        Did you mean “media/harp.svg”?

      2 lessons, 1 block: 1 error.
    `,
  },
  {
    what: 'a heading as it is written',
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

        ## The turn

        [here](<#The Turn>)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:10  link-anchor-unknown
         13 | [here](<#The Turn>)
            |          ^^^^^^^^
        The lesson “first” has neither a block nor a heading with the id “The Turn”.
        Did you mean “the-turn”?

      2 lessons, 1 block: 1 error.
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

        ## The turn

        [here](<#the-turn>)
      `,
    },
  },
  {
    what: 'a heading with a mistake in it',
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

        ## The turn

        [here](#the-trun)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:9  link-anchor-unknown
         13 | [here](#the-trun)
            |         ^^^^^^^^
        The lesson “first” has neither a block nor a heading with the id “the-trun”.
        Did you mean “the-turn”?

      2 lessons, 1 block: 1 error.
    `,
  },
  {
    what: 'a heading that was reworded',
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

        ## The turn

        [here](#round-the-corner)
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:9  link-anchor-unknown
         13 | [here](#round-the-corner)
            |         ^^^^^^^^^^^^^^^^
        The lesson “first” has neither a block nor a heading with the id “round-the-corner”.
        It has: walk, the-turn.

      2 lessons, 1 block: 1 error.
    `,
  },
  {
    what: 'a link of another program',
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

        ## The turn

        See [[blues/turn]] for more.
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:5  warning link-lost
         13 | See [[blues/turn]] for more.
            |     ^^^^^^^^^^^^^^
        “[[blues/turn]]” is no link, and is shown as it is written.
        Write [blues/turn](blues/turn)

      2 lessons, 1 block: 1 warning.
    `,
  },
  {
    what: 'a link the wrong way round',
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

        ## The turn

        See (blues/turn.mdx)[the turn] for more.
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:5  warning link-lost
         13 | See (blues/turn.mdx)[the turn] for more.
            |     ^^^^^^^^^^^^^^^^^^^^^^^^^^
        “(blues/turn.mdx)[the turn]” is no link, and is shown as it is written.
        Write [the turn](blues/turn.mdx)

      2 lessons, 1 block: 1 warning.
    `,
  },
  {
    what: 'a link with a space in it',
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

        ## The turn

        See [the turn] (media/harp.svg) for more.
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:5  warning link-lost
         13 | See [the turn] (media/harp.svg) for more.
            |     ^^^^^^^^^^^^^^^^^^^^^^^^^^^
        “[the turn] (media/harp.svg)” is no link, and is shown as it is written.
        Write [the turn](media/harp.svg)

      2 lessons, 1 block: 1 warning.
    `,
  },
  {
    what: 'a link that is not closed',
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

        ## The turn

        See [the turn](blues/turn for more.
      `,
      'lessons/blues/turn.mdx': typed`
        ---
        title: Turn
        ---

        Hello.
      `,
      'media/head.mp3': 'x',
      'media/harp.svg': '<svg/>',
      'media/deep/reed.png': 'x',
    },
    shown: typed`
      lessons/first.mdx:13:5  warning link-lost
         13 | See [the turn](blues/turn for more.
            |     ^^^^^^^^^^^^^^^^^^^^^
        “[the turn](blues/turn” is no link, and is shown as it is written.
        Write [the turn](blues/turn)

      2 lessons, 1 block: 1 warning.
    `,
  },
  {
    what: 'bars in other words, and a bar more than there are',
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

        [once](?bars=1&loop=false#walk)
        [to the end](?bars=1-3#walk)
        [slowly](?temp=60#walk)
        [two](?bars=1,2#walk)
      `,
    },
    shown: typed`
      lessons/first.mdx:11:21  link-query-value
         11 | [once](?bars=1&loop=false#walk)
            |                     ^^^^^
        “false” cannot be read as loop.
        Did you mean loop=no?

      lessons/first.mdx:12:22  link-bars-unknown
         12 | [to the end](?bars=1-3#walk)
            |                      ^
        The block “walk” has no bar 3.
        Its bars are: 1 to 2.

      lessons/first.mdx:13:11  warning link-query-unknown
         13 | [slowly](?temp=60#walk)
            |           ^^^^
        A link cannot ask for “temp”.
        Did you mean “tempo”?

      lessons/first.mdx:14:13  link-query-value
         14 | [two](?bars=1,2#walk)
            |             ^^^
        “1,2” cannot be read as bars.
        Did you mean bars=1-2?

      1 lesson, 1 block: 3 errors, 1 warning.
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

        [once](?bars=1&loop=no#walk)
        [to the end](?bars=1-3#walk)
        [slowly](?temp=60#walk)
        [two](?bars=1,2#walk)
      `,
    },
  },
];

testMistakes('links and pictures', MISTAKES);
