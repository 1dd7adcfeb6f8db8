/** Tags and signs of MDX: quotation marks, brackets, endings, names of components, elements of HTML. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'quotation marks of a word processor',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale=“blues” />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:16  mdx-syntax
          5 | <HarpMap scale=“blues” />
            |                ^^^^^^^
        These are the quotation marks of a word processor.
        Write plain ones: scale="blues"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />
      `,
    },
  },
  {
    what: 'no quotation marks',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <BendLadder hole=3 harp=A />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:18  mdx-syntax
          5 | <BendLadder hole=3 harp=A />
            |                  ^
        The value of an attribute is in quotation marks.
        Write hole="3"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <BendLadder hole="3" harp="A" />
      `,
    },
  },
  {
    what: 'one quotation mark of two',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap harp="A scale="blues" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:15  mdx-syntax
          5 | <HarpMap harp="A scale="blues" />
            |               ^
        The quotation mark that begins here is not closed.
        Write harp="A"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap harp="A" scale="blues" />
      `,
    },
  },
  {
    what: 'a colon in the place of an equals sign',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale: "blues" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:15  mdx-syntax
          5 | <HarpMap scale: "blues" />
            |               ^^
        An equals sign is between an attribute and its value.
        Write scale=

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />
      `,
    },
  },
  {
    what: 'a comma between attributes',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap harp="A", scale="blues" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:18  mdx-syntax
          5 | <HarpMap harp="A", scale="blues" />
            |                  ^
        Only spaces are between the attributes of a tag.
        Remove this sign.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap harp="A" scale="blues" />
      `,
    },
  },
  {
    what: 'a component that is not closed',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues">

        More.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:1  mdx-syntax
          5 | <HarpMap scale="blues">
            | ^^^^^^^^
        The component <HarpMap> that begins here is not closed.
        Write <HarpMap scale="blues" />

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />

        More.
      `,
    },
  },
  {
    what: 'a tag without its end',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues"

        More.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:1  mdx-syntax
          5 | <HarpMap scale="blues"
            | ^^^^^^^^
        The tag <HarpMap> that begins here has no end.
        Write /> behind its last attribute.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />

        More.
      `,
    },
  },
  {
    what: 'a backslash at the end of a tag',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" \>
      `,
    },
    shown: typed`
      lessons/first.mdx:5:24  mdx-syntax
          5 | <HarpMap scale="blues" \>
            |                        ^
        A tag ends with a slash, not with a backslash.
        Write />

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />
      `,
    },
  },
  {
    what: 'a component in small letters',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Play <note>-3</note> and look at the map.

        <harpmap scale="blues" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:7  component-unknown
          5 | Play <note>-3</note> and look at the map.
            |       ^^^^
        There is no component <note>.
        Did you mean “<Note>”?

      lessons/first.mdx:7:2  component-unknown
          7 | <harpmap scale="blues" />
            |  ^^^^^^^
        There is no component <harpmap>.
        Did you mean “<HarpMap>”?

      1 lesson, 0 blocks: 2 errors.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Play <Note>-3</Note> and look at the map.

        <HarpMap scale="blues" />
      `,
    },
  },
  {
    what: 'elements of HTML that are not closed',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        One<br>two

        <img src="media/harp.svg" alt="A harp">
      `,
      'media/harp.svg': '<svg/>',
    },
    shown: typed`
      lessons/first.mdx:5:4  mdx-syntax
          5 | One<br>two
            |    ^^^^
        The element <br> that begins here is not closed.
        Write <br />

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        One<br />two

        <img src="media/harp.svg" alt="A harp" />
      `,
    },
  },
  {
    what: 'a comment of HTML',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <!-- later -->
      `,
    },
    shown: typed`
      lessons/first.mdx:5:1  mdx-syntax
          5 | <!-- later -->
            | ^^^^
        A comment is written in another way in MDX.
        Write {/* … */}.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        {/* later */}
      `,
    },
  },
  {
    what: 'a heart',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        I <3 harps, and <4 of them.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:3  mdx-syntax
          5 | I <3 harps, and <4 of them.
            |   ^^
        A < begins a component here, and what follows is none.
        For the sign itself write \< , and a web address as [text](https://…).

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        I \<3 harps, and \<4 of them.
      `,
    },
  },
  {
    what: 'a sign that means less',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Practise if a <b or so.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:15  mdx-syntax
          5 | Practise if a <b or so.
            |               ^^
        A < begins a component here, and what follows is none.
        For the sign itself write \< , and a web address as [text](https://…).

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'addresses between < and >',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <https://example.org/talk> or <ada@example.org>
      `,
    },
    shown: typed`
      lessons/first.mdx:5:1  mdx-syntax
          5 | <https://example.org/talk> or <ada@example.org>
            | ^^^^^^^^^^^^^^^^^^^^^^^^^^
        An address between < and > is no link in MDX.
        Write [https://example.org/talk](https://example.org/talk)

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        [https://example.org/talk](https://example.org/talk) or [ada@example.org](mailto:ada@example.org)
      `,
    },
  },
  {
    what: 'a brace in the text',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Play {slowly} now.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:6  lesson-expression
          5 | Play {slowly} now.
            |      ^^^^^^^^
        “{slowly}” is no value: braces hold a text in quotation marks, a number or, in an attribute of a component, a list.
        For a brace in the text write \{ .

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a brace that is not closed',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Play {slowly now.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:6  mdx-syntax
          5 | Play {slowly now.
            |      ^
        The brace that begins here is not closed.
        For a brace in the text write \{ .

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'an attribute with a mistake in its name, which the component needs',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <RoleTable note="-2" form="twelve-bar" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:12  component-key
          5 | <RoleTable note="-2" form="twelve-bar" />
            |            ^^^^
        <RoleTable> has no attribute “note”.
        Did you mean “notes”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'an attribute with a capital',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap Scale="blues" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:10  component-key
          5 | <HarpMap Scale="blues" />
            |          ^^^^^
        <HarpMap> has no attribute “Scale”.
        Did you mean “scale”?

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <HarpMap scale="blues" />
      `,
    },
  },
  {
    what: 'what belongs between the tags in an attribute',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        Use <Technique name="vibrato" /> here.
      `,
    },
    shown: typed`
      lessons/first.mdx:5:16  component-key
          5 | Use <Technique name="vibrato" /> here.
            |                ^^^^
        <Technique> has no attribute “name”.
        Write what it is about between its tags: <Technique>vibrato</Technique>.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a value with a mistake in it',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <RoleTable notes="-2" form="twelve-bars" />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:29  figure-value
          5 | <RoleTable notes="-2" form="twelve-bars" />
            |                             ^^^^^^^^^^^
        There is no form “twelve-bars”.
        Did you mean “twelve-bar”?

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a word in braces',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <BendLadder hole={three} />
      `,
    },
    shown: typed`
      lessons/first.mdx:5:19  lesson-expression
          5 | <BendLadder hole={three} />
            |                   ^^^^^
        “three” is no value: a text is in quotation marks.
        Write 'three'.

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'an element that a lesson cannot hold',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ---

        <iframe src="https://example.org/x"></iframe>
      `,
    },
    shown: typed`
      lessons/first.mdx:5:2  element-unknown
          5 | <iframe src="https://example.org/x"></iframe>
            |  ^^^^^^
        A lesson cannot hold the element <iframe>.
        Write it in Markdown, or link to the page that has it. For the sign itself write \< .

      1 lesson, 0 blocks: 1 error.
    `,
  },
];

testMistakes('tags and signs of mdx', MISTAKES);
