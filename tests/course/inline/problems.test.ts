/** Each thing that can be wrong with a component within a sentence: its code, the very place it points at, and its words. */
import { describe, expect, test } from 'vitest';
import { INLINE_PROBLEMS } from '../../../src/course/inline/problems.ts';
import { codesOf, type Files, first, type ProblemCase, problemsIn } from '../problem-case.ts';

const GLOSSARY = 'terms:\n  - term: riff\n    means: A short figure.\n    also: [riffs, short figure]\n';
/** A lesson with a block, below which letters in plain text are looked for. */
const withBlock = (text: string): Files => first(`${text}\n\n\`\`\`tab\nslot: 1/1\n4\n\`\`\`\n`);
const withGlossary = (text: string): Files => ({ ...first(text), 'glossary.yaml': GLOSSARY });

const NO_NOTE = "Write notes as in a block, divided by spaces: <Note>-3'</Note>, <Note>-2 -3 -4</Note>.";
const LETTER = 'Where it is meant for this harp alone, add follow="no" to that component.';

const CASES: readonly ProblemCase[] = [
  ...(
    [
      ['role', '5:16-20'],
      ['name role', '5:16-25'],
    ] as const
  ).map(
    ([show, place]): ProblemCase => [
      `a note that is to show its ${show}, without a chord`,
      first(`It <Note show="${show}">-3</Note>.\n`),
      [
        [
          `lessons/first.mdx:${place}`,
          'inline-no-chord',
          'A role is what a note is to a chord, and this <Note> names no chord.',
          'Name the chord, as in over="IV7".',
        ],
      ],
    ],
  ),
  [
    'a note that is a rest',
    first('It <Note>.</Note>.\n'),
    [['lessons/first.mdx:5:10-11', 'inline-notes', 'There is no note between <Note> and </Note>.', NO_NOTE]],
  ],
  [
    'notes with a bar line',
    first('It <Note>-3 | 4</Note>.\n'),
    [['lessons/first.mdx:5:10-16', 'inline-notes', 'A <Note> has no bars, and here is a bar line.', NO_NOTE]],
  ],
  [
    'a note that cannot be read, which is not reported twice',
    first('It <Note>99</Note>.\n'),
    [['lessons/first.mdx:5:10-12', 'no-hole', 'There is no hole 99 on a harp of 10 holes.', 'Hole 9 twice is 9 9']],
  ],
  [
    'a technique with a mistake in its name',
    first('See <Technique>vibrto</Technique>.\n'),
    [
      [
        'lessons/first.mdx:5:16-22',
        'technique-not-known',
        'There is no technique “vibrto”.',
        'Did you mean “vibrato”?',
      ],
    ],
  ],
  [
    'techniques that nobody knows',
    first('See <Technique of="zzzzzz">it</Technique> and <Technique of="">it</Technique>.\n'),
    [
      [
        'lessons/first.mdx:5:20-26',
        'technique-not-known',
        'There is no technique “zzzzzz”.',
        'Run `reedway techniques` for a list of them.',
      ],
      [
        'lessons/first.mdx:5:62-62',
        'technique-not-known',
        'This “of” is empty.',
        'Write the id of a technique, as in of="vibrato".',
      ],
    ],
  ],
  [
    'words that the glossary does not explain',
    withGlossary(
      'A <Term>rif</Term>, <Term of="turnaround">one</Term>,\n<Term of>it</Term> and <Term of="a: b">x</Term>.\n',
    ),
    [
      ['lessons/first.mdx:5:9-12', 'term-not-known', 'The glossary does not explain “rif”.', 'Did you mean “riff”?'],
      [
        'lessons/first.mdx:5:31-41',
        'term-not-known',
        'The glossary does not explain “turnaround”.',
        'Add it to the terms of glossary.yaml: a line “- term: turnaround”, and below it “means: …” with what it means.',
      ],
      [
        'lessons/first.mdx:6:7-9',
        'term-not-known',
        'This “of” is empty.',
        'Write a word of the glossary, as in of="riff".',
      ],
      [
        'lessons/first.mdx:6:34-38',
        'term-not-known',
        'The glossary does not explain “a: b”.',
        'Add it to the terms of glossary.yaml: a line “- term: "a: b"”, and below it “means: …” with what it means.',
      ],
    ],
  ],
  [
    'a glossary with a mistake, which is not reported again with each of its words',
    { ...first('A <Term>riff</Term>.\n'), 'glossary.yaml': 'terms:\n  - term: riff\n' },
    [['glossary.yaml:2:5-5', 'key-missing', '“means” is missing.', 'Write a line means: …']],
  ],
  [
    'a word without a glossary',
    first('A <Term>riff</Term>.\n'),
    [
      [
        'lessons/first.mdx:5:9-13',
        'term-not-known',
        'The course has no glossary that explains “riff”.',
        'Make a file glossary.yaml beside course.yaml: a line “terms:”, then “- term: riff”, and below that “means: …” with what it means.',
      ],
    ],
  ],
  [
    'a word that is explained twice, once as another form of a word',
    { 'glossary.yaml': `${GLOSSARY}  - term: Short  figure\n    means: The same.\n    also: [lick, Riff]\n` },
    [
      [
        'glossary.yaml:5:11-24',
        'term-twice',
        '“Short  figure” is in the glossary already, as a word or under “also”.',
        'Keep one of the two.',
      ],
      [
        'glossary.yaml:7:18-22',
        'term-twice',
        '“Riff” is in the glossary already, as a word or under “also”.',
        'Keep one of the two.',
      ],
    ],
  ],
  [
    'a word and a technique in the text of a link',
    withGlossary(
      '[a <Term>riff</Term>](https://example.org) <a href="https://example.org"><Technique of="zzzzzz">it</Technique></a>\n',
    ),
    [
      [
        'lessons/first.mdx:5:5-9',
        'link-in-link',
        'This <Term> is a link, and it is in the text of another.',
        'Write the word itself there, or put the <Term> beside the link.',
      ],
      [
        'lessons/first.mdx:5:75-84',
        'link-in-link',
        'This <Technique> is a link, and it is in the text of another.',
        'Write the word itself there, or put the <Technique> beside the link.',
      ],
      [
        'lessons/first.mdx:5:89-95',
        'technique-not-known',
        'There is no technique “zzzzzz”.',
        'Run `reedway techniques` for a list of them.',
      ],
    ],
  ],
  ...(
    [
      ['Hole 3 has B on the draw.', '5:12-13', 'B', `a note with its pitch, as in <Note show="pitch">-3'</Note>`],
      [
        '> All of it\n> is in D\n> minor.',
        '6:9-7:8',
        'D minor',
        '<Key />, or <Key position="1" /> for that of another position',
      ],
      ['| a | b |\n|---|---|\n| G7 | x |', '7:3-5', 'G7', 'a chord by its numeral, as in <Chord>IV7</Chord>'],
      [
        '## The harp\n\nOn a C harp.',
        '7:6-12',
        'C harp',
        '<Harp />, or <Harp article="yes" /> for “a” or “an” before it',
      ],
    ] as const
  ).map(
    ([text, place, letters, instead]): ProblemCase => [
      `letters in the text: ${letters}`,
      withBlock(text),
      [
        [
          `lessons/first.mdx:${place}`,
          'letter-in-prose',
          `“${letters}” stays as it is when a student chooses another harp.`,
          `Write ${instead}. ${LETTER}`,
        ],
      ],
    ],
  ),
  ['letters in a lesson without a block', first('Hole 3 has B on the draw.\n'), []],
  [
    'letters in the titles of a block and of a figure',
    first('```tab\ntitle: Riff in G\nslot: 1/1\n4\n```\n\n<BendLadder hole="2" title="Down to F" />\n'),
    [
      [
        'lessons/first.mdx:6:16-17',
        'letter-in-title',
        '“G” in this title stays as it is when a student chooses another harp.',
        'Leave it out of the title, or say it in the text with a component that follows the harp.',
      ],
      [
        'lessons/first.mdx:11:37-38',
        'letter-in-title',
        '“F” in this title stays as it is when a student chooses another harp.',
        'Leave it out of the title, or say it in the text with a component that follows the harp.',
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
  expect(Object.keys(INLINE_PROBLEMS).filter((code) => !codesOf(CASES).has(code))).toEqual([]);
});
