/** Each thing that can be wrong with the text of a lesson: its code, the very place it points at, and its words. */
import { describe, expect, test } from 'vitest';
import { LESSON_PROBLEMS } from '../../src/lesson/problems.ts';
import { codesOf, first, GOOD, type ProblemCase, problemsIn, type Reported } from '../course/problem-case.ts';

const CASES: readonly ProblemCase[] = [
  [
    'no front matter',
    { 'lessons/first.mdx': 'Hello.\n' },
    [
      [
        'lessons/first.mdx:1:1-1',
        'front-matter-missing',
        'This lesson does not begin with front matter, so it has no title.',
        'Begin with three lines: --- , then title: … , then --- again.',
      ],
    ],
  ],
  [
    'front matter behind an empty line',
    { 'lessons/first.mdx': '\n---\ntitle: One\n---\n' },
    [
      [
        'lessons/first.mdx:1:1-1',
        'front-matter-missing',
        'Something is before the front matter, so it is not read as such.',
        'Move the --- into the very first line.',
      ],
    ],
  ],
  [
    'front matter that never ends',
    { 'lessons/first.mdx': '---\ntitle: One\n\nHello.\n' },
    [
      [
        'lessons/first.mdx:1:1-4',
        'front-matter-unclosed',
        'The front matter that begins here is not closed.',
        'Write a line of three hyphens --- after its last key.',
      ],
    ],
  ],
  [
    'a component that is not closed',
    first('Text\n\n> <Clip src="https://example.org/a.mp4">\n'),
    [
      [
        'lessons/first.mdx:7:3-8',
        'mdx-syntax',
        'The component <Clip> that begins here is not closed.',
        'Write <Clip src="https://example.org/a.mp4" />',
      ],
    ],
  ],
  [
    'an element that is closed only below its paragraph',
    first('<details><summary>Why?</summary>\n\nBecause.\n\n</details>\n'),
    [
      [
        'lessons/first.mdx:5:1-10',
        'mdx-syntax',
        'The component <details> that begins here is not closed in its paragraph.',
        'Write <details> and </details> each on a line of its own, or close it above the empty line.',
      ],
    ],
  ],
  [
    'an import',
    first('import Thing from "thing"\n'),
    [
      [
        'lessons/first.mdx:5:1-26',
        'lesson-code',
        'A lesson does not import anything.',
        'Remove the line: components are there without it. A line of text cannot begin with this word.',
      ],
    ],
  ],
  [
    'an expression',
    first('Play it {2 + 2} times.\n'),
    [
      [
        'lessons/first.mdx:5:9-16',
        'lesson-expression',
        '“{2 + 2}” is no value: braces hold a text in quotation marks, a number or, in an attribute of a component, a list.',
        'For a brace in the text write \\{ .',
      ],
    ],
  ],
  [
    'an unknown component',
    first('Here: <HarpMpa /> and there.\n'),
    [
      [
        'lessons/first.mdx:5:8-15',
        'component-unknown',
        'There is no component <HarpMpa>.',
        'Did you mean “<HarpMap>”?',
      ],
    ],
  ],
  [
    'a component in small letters, which is no element of HTML either',
    first('<harpmap scale="blues" />\n'),
    [['lessons/first.mdx:5:2-9', 'component-unknown', 'There is no component <harpmap>.', 'Did you mean “<HarpMap>”?']],
  ],
  [
    'an unknown attribute',
    first('<BendLadder\n  hole="2"\n  titel="Down"\n/>\n'),
    [['lessons/first.mdx:7:3-8', 'component-key', '<BendLadder> has no attribute “titel”.', 'Did you mean “title”?']],
  ],
  [
    'a component with content, which would be lost',
    first('<BendLadder hole="2">Slowly.</BendLadder>\n'),
    [
      [
        'lessons/first.mdx:5:2-12',
        'component-content',
        'What is between <BendLadder> and </BendLadder> would not be shown.',
        'Close it at once, <BendLadder … />, and write what belongs to the text below it.',
      ],
    ],
  ],
  [
    'marks and a component in the text of a word',
    {
      ...first('A <Term of="riff">**wide** one</Term>, **<Term>riff</Term>**, <Term of="riff"><Key /></Term>.\n'),
      'glossary.yaml': 'terms:\n  - term: riff\n    means: A short figure.\n',
    },
    [
      [
        'lessons/first.mdx:5:19-27',
        'component-marks',
        'In a <Term> is plain text alone, and this would be shown with its marks.',
        'Write the marks around it, as in **<Term>…</Term>**.',
      ],
      [
        'lessons/first.mdx:5:79-86',
        'component-marks',
        'In a <Term> is plain text alone, and this would be shown with its marks.',
        'Write the marks around it, as in **<Term>…</Term>**.',
      ],
    ],
  ],
  [
    'an attribute left out',
    first('<BendLadder title="Down" />\n'),
    [['lessons/first.mdx:5:2-12', 'component-key-missing', '<BendLadder> needs the attribute “hole”.']],
  ],
  [
    'an element that a lesson cannot hold',
    first('<deatils>x</deatils>\n\nSee <iframe title="x"></iframe>\n'),
    [
      [
        'lessons/first.mdx:5:2-9',
        'element-unknown',
        'A lesson cannot hold the element <deatils>.',
        'Did you mean “<details>”?',
      ],
      [
        'lessons/first.mdx:7:6-12',
        'element-unknown',
        'A lesson cannot hold the element <iframe>.',
        'Write it in Markdown, or link to the page that has it. For the sign itself write \\< .',
      ],
    ],
  ],
  [
    'attributes of elements that a lesson cannot use',
    first('<p style="color:red">x</p>\n\n<a HREF="first">x</a>\n'),
    [
      ['lessons/first.mdx:5:4-9', 'element-attribute', 'In a lesson <p> has no attribute “style”.', 'Remove it.'],
      [
        'lessons/first.mdx:7:4-8',
        'element-attribute',
        'In a lesson <a> has no attribute “HREF”.',
        'Did you mean “href”?',
      ],
    ],
  ],
  [
    'a script',
    first('<b onclick="go()">x</b>\n'),
    [
      [
        'lessons/first.mdx:5:4-11',
        'script-in-lesson',
        '“onclick” would run a script on the page, and a lesson cannot have scripts.',
        'Remove it.',
      ],
    ],
  ],
  [
    'a picture without words',
    { ...first('> Here: ![ ](media/harp.svg)\n\n![A harp](media/harp.svg)\n'), 'media/harp.svg': '<svg/>' },
    [
      [
        'lessons/first.mdx:5:9-29',
        'picture-alt',
        'This picture has no description for students who cannot see it.',
        'Describe the picture between the brackets. For a decorative picture, write <img src="media/harp.svg" alt="" /> instead.',
      ],
    ],
  ],
  [
    'a component in the description of a picture',
    {
      ...first(
        '![One <Note show="pitch">-3</Note>, \\<Key>](media/harp.svg) ![In <Key />][a]\n\n[a]: media/harp.svg\n',
      ),
      'media/harp.svg': '<svg/>',
    },
    [
      ['lessons/first.mdx:5:8-12', 'Note'],
      ['lessons/first.mdx:5:67-70', 'Key'],
    ].map(
      ([place, name]): Reported => [
        place ?? '',
        'component-in-alt',
        `What <${name}> says is lost in the description of a picture.`,
        'Write the words themselves; leave a pitch, a key or a harp to the text beside the picture.',
      ],
    ),
  ],
  [
    'pictures as elements, of which one only decorates',
    {
      ...first(
        '<img src="media/harp.svg" />\n\n<img alt="" src="media/harp.svg" />\n\nAnd <img alt src="media/harp.svg" />\n',
      ),
      'media/harp.svg': '<svg/>',
    },
    ['lessons/first.mdx:5:2-5', 'lessons/first.mdx:9:6-9'].map(
      (place): Reported => [
        place,
        'picture-alt',
        'This picture has no description for students who cannot see it.',
        'Add alt="…" with a description, or alt="" for a decorative picture.',
      ],
    ),
  ],
  [
    'a picture by reference without words',
    { ...first('![][harp]\n\n[harp]: media/harp.svg\n'), 'media/harp.svg': '<svg/>' },
    [
      [
        'lessons/first.mdx:5:1-10',
        'picture-alt',
        'This picture has no description for students who cannot see it.',
        'Describe the picture between the brackets. For a decorative picture, write <img src="…" alt="" /> instead.',
      ],
    ],
  ],
  [
    'a block that is not closed',
    first('```tab\n4 4 4 4\n'),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-unclosed',
        'The block that begins here is not closed.',
        'Write a line of ``` after its last line.',
      ],
    ],
  ],
  [
    'a block that swallows the next one',
    first(`\`\`\`tab\n4 4 4 4\n\n${GOOD}`),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-unclosed',
        'The block that begins here is not closed before another begins, 3 lines below.',
        'Write a line of ``` after its last line.',
      ],
    ],
  ],
  ...(
    [
      ['Note', '', "Write a note, as in <Note>-3'</Note>."],
      ['Chord', ' show="tones"', 'Write a chord, as in <Chord>IV7</Chord>.'],
      ['Technique', '', 'Write the id of a technique, as in <Technique>vibrato</Technique>.'],
      ['Term', '', 'Write a word of the glossary, as in <Term>riff</Term>.'],
    ] as const
  ).map(
    ([name, attributes, help]): ProblemCase => [
      `a <${name}> around nothing`,
      first(`See <${name}${attributes}> </${name}>.\n`),
      [
        [
          `lessons/first.mdx:5:6-${6 + name.length}`,
          'component-empty',
          `Nothing is between <${name}> and </${name}>.`,
          help,
        ],
      ],
    ],
  ),
  [
    'a fence with another word',
    first('```Tab\n4 4 4 4\n```\n'),
    [
      [
        'lessons/first.mdx:5:1-7',
        'fence-word',
        'A fence marked “Tab” is shown as plain text.',
        'A block begins with ```tab .',
      ],
    ],
  ],
  [
    'a heading without its space',
    first('##The turn\n'),
    [
      [
        'lessons/first.mdx:5:1-11',
        'heading-space',
        '“##The turn” is no heading, and is shown as it is written.',
        'Write a space behind ##, as in ## The turn.',
      ],
    ],
  ],
  [
    'a link with a space in its address',
    first('See ![a harp](media/my pic.svg) and [more](my second).\n'),
    [
      [
        'lessons/first.mdx:5:6-32',
        'link-space',
        '“[a harp](media/my pic.svg)” is shown as it is written: there is a space in its address.',
        'Write %20 for the space, or give the file a name without one.',
      ],
      [
        'lessons/first.mdx:5:37-54',
        'link-space',
        '“[more](my second)” is shown as it is written: there is a space in its address.',
        'Write %20 for the space, or give the file a name without one.',
      ],
    ],
  ],
  [
    'a link as in another program',
    first('See [[second]].\n'),
    [
      [
        'lessons/first.mdx:5:5-15',
        'link-lost',
        '“[[second]]” is no link, and is shown as it is written.',
        'Write [second](second)',
      ],
    ],
  ],
  [
    'a block that lost its first line',
    first('Play it:\n\nid: walk\nslot: 1/1\n\n4 | -4 | 5 |]\n'),
    [
      [
        'lessons/first.mdx:7:1-8:10',
        'block-lost',
        'This reads as a block, and is shown as plain text: nothing marks where the block begins and ends.',
        'Write a line ```tab before it and a line ``` after it.',
      ],
    ],
  ],
  [
    'a block that lost the word',
    first('```\n4 = | -4 |]\n```\n'),
    [
      [
        'lessons/first.mdx:5:1-4',
        'block-lost',
        'This reads as a block, and is shown as plain text: its first line has no word tab.',
        'Begin it with a line ```tab .',
      ],
    ],
  ],
  [
    'settings behind the word',
    first('```tab harp: A\nslot: 1/1\n4\n```\n'),
    [
      [
        'lessons/first.mdx:5:8-15',
        'fence-settings',
        '“harp: A” after the word tab is not read.',
        'Write settings as key: value lines at the top of the block.',
      ],
    ],
  ],
];

describe('a course with', () => {
  test.each(CASES)('%s', (_, files, wanted) => {
    expect(problemsIn(files, CASES)).toEqual(wanted);
  });
});

test('every code of the catalogue is met here', () => {
  expect(Object.keys(LESSON_PROBLEMS).filter((code) => !codesOf(CASES).has(code))).toEqual([]);
});
