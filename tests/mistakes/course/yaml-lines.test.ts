/** How the lines of YAML are written: indentation, lists, brackets, quotation marks and colons. */
import { type Mistake, testMistakes, typed } from './mistake.ts';

const MISTAKES: readonly Mistake[] = [
  {
    what: 'a key that is indented further than the one above it',
    files: {
      'course.yaml': typed`
        title: One
          harp: A
      `,
    },
    shown: typed`
      course.yaml:2:3  yaml-syntax
          2 |   harp: A
            |   ^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with no space, as that one.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        harp: A
      `,
    },
  },
  {
    what: 'keys that are indented further than the one above them, with what belongs to them',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
          minutes: 10
          clips:
            slow:
              src: https://example.org/a.mp3
        draft: true
        ---

        <Clip name="slow" />
      `,
    },
    shown: typed`
      lessons/first.mdx:3:3  yaml-syntax
          3 |   minutes: 10
            |   ^^^^^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with no space, as that one.

      lessons/first.mdx:10:13  clip-unknown
         10 | <Clip name="slow" />
            |             ^^^^
        The front matter has no clip “slow”.
        Write it there under clips, or give this one src="media/…".

      1 lesson, 0 blocks: 2 errors.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        minutes: 10
        clips:
          slow:
            src: https://example.org/a.mp3
        draft: true
        ---

        <Clip name="slow" />
      `,
    },
  },
  {
    what: 'a first key that is indented',
    files: {
      'course.yaml': '  title: One\nharp: A\n',
    },
    shown: typed`
      course.yaml:1:1  yaml-syntax
          1 |   title: One
            | ^^
        This line is indented, and the keys below it that belong to the same group are not.
        Remove the spaces before it.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        harp: A
      `,
    },
  },
  {
    what: 'a key of a list’s item that is indented too far',
    files: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
             title: A
      `,
    },
    shown: typed`
      course.yaml:4:6  yaml-syntax
          4 |      title: A
            |      ^^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with 4 spaces, as that one.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
            title: A
      `,
    },
  },
  {
    what: 'a key of a list’s item below the hyphen',
    files: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
          title: A
      `,
    },
    shown: typed`
      course.yaml:4:3  yaml-syntax
          4 |   title: A
            |   ^^^^^^^^
        This key begins below the hyphen of its list item, so it is read as something beside the list.
        Begin it as far right as the item’s first key, with 4 spaces before it.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
            title: A
      `,
    },
  },
  {
    what: 'an item of a list that begins between two others',
    files: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
            title: A
         - id: b
           title: B
      `,
    },
    shown: typed`
      course.yaml:5:2  yaml-syntax
          5 |  - id: b
            |  ^^^^^^^
        This line begins with one space, and no line above it that it can belong to does.
        Begin it with 2 spaces, as the lines of its group above.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
            title: A
          - id: b
            title: B
      `,
    },
  },
  {
    what: 'an item that would be part of the one above it',
    files: {
      'course.yaml': typed`
        title: One
        cautions:
          - Breathe.
            - Rest.
      `,
    },
    shown: typed`
      course.yaml:4:5  yaml-syntax
          4 |     - Rest.
            |     ^^^^^^^
        This line is indented further than the one above it, so it is read as going on with its value.
        Begin it with 2 spaces, as that one.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        cautions:
          - Breathe.
          - Rest.
      `,
    },
  },
  {
    what: 'tabs',
    files: {
      'course.yaml': typed`
        title: One
        stages:
        ⇥- id: a
        ⇥  title: A
      `,
    },
    shown: typed`
      course.yaml:3:1  yaml-syntax
          3 |  - id: a
            | ^
        This line is indented with a tab, which YAML does not allow.
        Indent with spaces, two for each step.

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        stages:
          - id: a
            title: A
      `,
    },
  },
  {
    what: 'a tab before a key',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        ⇥minutes: 10
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  yaml-syntax
          3 |  minutes: 10
            | ^
        This line is indented with a tab, which YAML does not allow.
        Indent with spaces, two for each step.

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
    what: 'items without a space behind the hyphen',
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
        requires:
          -second
          -third
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:4:3  yaml-syntax
          4 |   -second
            |   ^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write a space after the hyphen: - second

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires:
          - second
          - third
        ---

        Hello.
      `,
    },
  },
  {
    what: 'items with another sign than a hyphen',
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
        requires:
          * second
          * third
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:4:3  yaml-syntax
          4 |   * second
            |   ^^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write - second

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires:
          - second
          - third
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a list in the line of its key',
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
        requires: - second
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:11  yaml-syntax
          3 | requires: - second
            |           ^
        A list with hyphens begins in the line below its key.
        A single value needs no hyphen: requires: second

      3 lessons, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a bracket that is not closed',
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
        requires: [second, third
        minutes: 10
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:11  yaml-syntax
          3 | requires: [second, third
            |           ^
        The bracket that begins here is not closed.
        Write requires: [second, third]

      3 lessons, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        requires: [second, third]
        minutes: 10
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a quotation mark that is not closed',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: "One
        minutes: 10
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:8  yaml-syntax
          2 | title: "One
            |        ^
        The quotation mark that begins here is not closed.
        Write title: "One"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "One"
        minutes: 10
        ---

        Hello.
      `,
    },
  },
  {
    what: 'an apostrophe in single quotation marks',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: 'It's one'
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:12  yaml-syntax
          2 | title: 'It's one'
            |            ^^^^^^
        The quotation mark before this ends the value, and more follows it.
        Quote the whole value: title: "It's one"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "It's one"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'quotation marks around a part of a value',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: "Cross" harp
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:16  yaml-syntax
          2 | title: "Cross" harp
            |                ^^^^
        The quotation mark before this ends the value, and more follows it.
        Quote the whole value: title: '"Cross" harp'

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: '"Cross" harp'
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a bracket around a part of a value',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: [Cross] harp
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:16  yaml-syntax
          2 | title: [Cross] harp
            |                ^^^^
        A value that begins with a bracket is a list or a group, which is closed before this.
        Quote the whole value: title: "[Cross] harp"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "[Cross] harp"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a value with a colon in it',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: Bends: the first
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:8  yaml-syntax
          2 | title: Bends: the first
            |        ^^^^^^^^^^^^^^^^
        A second colon in this line makes YAML see a key inside a value.
        Quote the value: title: "Bends: the first"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "Bends: the first"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a caution with a colon in it',
    files: {
      'course.yaml': typed`
        title: One
        cautions:
          - Stop: it hurts
      `,
    },
    shown: typed`
      course.yaml:3:5  value-wrong
          3 |   - Stop: it hurts
            |     ^^^^^^^^^^^^^^
        Each entry of “cautions” takes a text, not a list or a group of keys.
        The colon in it makes it a key and a value. Quote it: "Stop: it hurts"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        cautions:
          - "Stop: it hurts"
      `,
    },
  },
  {
    what: 'a second key in the line of the first',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One harp: A
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:8  yaml-syntax
          2 | title: One harp: A
            |        ^^^^^^^^^^^
        A second colon in this line makes YAML see a key inside a value.
        Quote the value: title: "One harp: A"

      1 lesson, 0 blocks: 1 error.
    `,
  },
  {
    what: 'a value that begins with @',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: @home
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:8  yaml-syntax
          2 | title: @home
            |        ^
        A value may not start with this character.
        Quote the value: title: "@home"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "@home"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a value between stars',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: *One*
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:8  yaml-syntax
          2 | title: *One*
            |        ^^^^^
        A value that starts with * refers to another place of the file, which course files do not use.
        Quote the value: title: "*One*"

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: "*One*"
        ---

        Hello.
      `,
    },
  },
  {
    what: 'chords that begin with a bar line',
    files: {
      'course.yaml': typed`
        title: One
        forms:
          vamp: | I7 | IV7 |
      `,
    },
    shown: typed`
      course.yaml:3:11  yaml-syntax
          3 |   vamp: | I7 | IV7 |
            |           ^^^^^^^^^^
        A value that begins with | or > is read as a text of several lines.
        Leave the first bar line out: vamp: I7 | IV7

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        forms:
          vamp: I7 | IV7
      `,
    },
  },
  {
    what: 'a key without its colon',
    files: {
      'lessons/first.mdx': typed`
        ---
        title: One
        harp A
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:3:1  yaml-syntax
          3 | harp A
            | ^^^^^^
        This line is no “key: value”.
        Write a colon behind the key: harp: A

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        harp: A
        ---

        Hello.
      `,
    },
  },
  {
    what: 'a key of a list without its colon',
    files: {
      'course.yaml': typed`
        title: One
        stages
          - { id: a, title: A }
      `,
    },
    shown: typed`
      course.yaml:2:1  yaml-syntax
          2 | stages
            | ^^^^^^
        This line is no “key: value”.
        Write stages:

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        stages:
          - { id: a, title: A }
      `,
    },
  },
  {
    what: 'equals signs',
    files: {
      'course.yaml': typed`
        title = One
        harp = A
      `,
    },
    shown: typed`
      course.yaml:1:1  yaml-syntax
          1 | title = One
            | ^^^^^^^^^^^
        This line is no “key: value”.
        Write a colon in the place of the equals sign: title: One

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: One
        harp: A
      `,
    },
  },
  {
    what: 'colons without a space',
    files: {
      'lessons/first.mdx': typed`
        ---
        title:One
        harp:A
        ---

        Hello.
      `,
    },
    shown: typed`
      lessons/first.mdx:2:1  yaml-syntax
          2 | title:One
            | ^^^^^^^^^
        This line is no “key: value”.
        Write a space behind the colon: title: One

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'lessons/first.mdx': typed`
        ---
        title: One
        harp: A
        ---

        Hello.
      `,
    },
  },
  {
    what: 'hyphens without a space before the first keys of items',
    files: {
      'course.yaml': typed`
        title: A course
        stages:
          -id: breath
            title: Breath
          - id: bank
            title: Bank
          -id: blues
            title: Blues
      `,
    },
    shown: typed`
      course.yaml:3:3  yaml-syntax
          3 |   -id: breath
            |   ^^^^^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write a space after the hyphen: - id: breath

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: A course
        stages:
          - id: breath
            title: Breath
          - id: bank
            title: Bank
          - id: blues
            title: Blues
      `,
    },
  },
  {
    what: 'a hyphen without a space before the only key of an item',
    files: {
      'techniques.yaml': typed`
        techniques:
          -id: high-holes
      `,
    },
    shown: typed`
      techniques.yaml:2:3  yaml-syntax
          2 |   -id: high-holes
            |   ^^^^^^^^^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write a space after the hyphen: - id: high-holes

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'techniques.yaml': typed`
        techniques:
          - id: high-holes
      `,
    },
  },
  {
    what: 'a later item whose hyphen has no space behind it',
    files: {
      'glossary.yaml': typed`
        terms:
          - term: riff
            meaning: A short phrase that comes back.
          -term: pickup
            meaning: Notes before the first bar.
      `,
    },
    shown: typed`
      glossary.yaml:4:3  yaml-syntax
          4 |   -term: pickup
            |   ^^^^^^^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write a space after the hyphen: - term: pickup

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'glossary.yaml': typed`
        terms:
          - term: riff
            meaning: A short phrase that comes back.
          - term: pickup
            meaning: Notes before the first bar.
      `,
    },
  },
  {
    what: 'a group in braces with no space before it',
    files: {
      'course.yaml': typed`
        title: A course
        stages:
          -{ id: breath, title: Breath }
          -{ id: blues, title: Blues }
      `,
    },
    shown: typed`
      course.yaml:3:3  yaml-syntax
          3 |   -{ id: breath, title: Breath }
            |   ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
        An item of a list begins with a hyphen and a space.
        Write a space after the hyphen: - { id: breath, title: Breath }

      1 lesson, 0 blocks: 1 error.
    `,
    fixed: {
      'course.yaml': typed`
        title: A course
        stages:
          - { id: breath, title: Breath }
          - { id: blues, title: Blues }
      `,
    },
  },
];

testMistakes('how the lines of yaml are written', MISTAKES);
