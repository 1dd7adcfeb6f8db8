/** Each thing that can be wrong with what a link asks to be played: its code, the characters it points at, and its words. */
import { describe, expect, test } from 'vitest';
import { BLOCK_LINK_PROBLEMS } from '../../src/course/block-link/problems.ts';
import { addressesUnder } from '../../src/site/addresses.ts';
import { addressOf } from '../../src/site/links.ts';
import { present } from '../../src/values/checked.ts';
import { courseInMemory } from './files-in-memory.ts';
import { codesOf, first, type ProblemCase, problemsIn } from './problem-case.ts';

const BLOCK = '\n\n```tab\nid: head\nslot: 1/1\ntempo: 80\n|: 4 | 5 |1 6 :|2 7 |]\n```\n\n## Words\n';
const linked = (url: string) => first(`[a](${url})${BLOCK}`);

/** What is wrong with the block itself is all that is reported. */
const UNREAD: ProblemCase[2] = [
  ['lessons/first.mdx:10:1-3', 'no-hole', 'There is no hole 44 on a harp of 10 holes.', 'Hole 4 twice is 4 4'],
];

const CASES: readonly ProblemCase[] = [
  [
    'a parameter that is not known',
    linked('?bar=1#head'),
    [['lessons/first.mdx:5:6-9', 'link-query-unknown', 'A link cannot ask for “bar”.', 'Did you mean “bars”?']],
  ],
  [
    'one that is like none',
    linked('?utm_source=mail#head'),
    [
      [
        'lessons/first.mdx:5:6-16',
        'link-query-unknown',
        'A link cannot ask for “utm_source”.',
        'It can ask for: bars, tempo, loop, harp, tuning.',
      ],
    ],
  ],
  [
    'one that is there twice',
    linked('?bars=1&bars=2#head'),
    [
      [
        'lessons/first.mdx:5:13-17',
        'link-query-twice',
        'This link has bars twice, and only the first one counts.',
        'Remove one of them.',
      ],
    ],
  ],
  [
    'bars without a block',
    linked('first?bars=1'),
    [
      [
        'lessons/first.mdx:5:10-17',
        'link-query-place',
        'This link has bars, and leads to no block.',
        'Write the id of a block behind it, as in ?bars=…#head.',
      ],
    ],
  ],
  [
    'a tempo of a heading',
    linked('?tempo=60#words'),
    [
      [
        'lessons/first.mdx:5:5-14',
        'link-query-place',
        'This link has tempo, and leads to no block.',
        'Write the id of a block behind it, as in ?tempo=…#head.',
      ],
    ],
  ],
  [
    'bars that cannot be read',
    linked('?bars=one#head'),
    [
      [
        'lessons/first.mdx:5:11-14',
        'link-query-value',
        '“one” cannot be read as bars.',
        'Write one bar, as in bars=3, or the first and the last, as in bars=3-4.',
      ],
    ],
  ],
  [
    'a tempo with its unit',
    linked('?tempo=60bpm#head'),
    [['lessons/first.mdx:5:12-17', 'link-query-value', '“60bpm” cannot be read as tempo.', 'Did you mean tempo=60?']],
  ],
  [
    'nothing',
    linked('?loop=#head'),
    [
      [
        'lessons/first.mdx:5:11-11',
        'link-query-value',
        'Nothing is behind loop here.',
        'Write loop=no or loop=yes. Bars loop unless loop=no is written.',
      ],
    ],
  ],
  [
    'a bar that the block has not got',
    linked('?bars=2-5&tempo=60#head'),
    [
      [
        'lessons/first.mdx:5:13-14',
        'link-bars-unknown',
        'The block “head” has no bar 5.',
        'Its bars are: 1 to 2, 3.1, 3.2.',
      ],
    ],
  ],
  [
    'a bar of another lesson’s block',
    {
      ...linked('second?bars=7#riff'),
      'lessons/second.mdx': '---\ntitle: Two\n---\n\n```tab\nid: riff\nslot: 1/1\n4 | 5\n```\n',
    },
    [['lessons/first.mdx:5:17-18', 'link-bars-unknown', 'The block “riff” has no bar 7.', 'Its bars are: 1 to 2.']],
  ],
  [
    'a bar in two endings',
    linked('?bars=1-3#head'),
    [
      [
        'lessons/first.mdx:5:13-14',
        'link-bars-ending',
        'There are 2 bars 3, each in an ending of its own.',
        'Write one of: 3.1, 3.2.',
      ],
    ],
  ],
  [
    'bars that end before they begin',
    linked('?bars=2-1#head'),
    [['lessons/first.mdx:5:11-14', 'link-bars-backwards', 'The bars 2-1 end before they begin.', 'Did you mean 1-2?']],
  ],
  [
    'a tempo that nobody can set',
    linked('?tempo=300#head'),
    [
      [
        'lessons/first.mdx:5:12-15',
        'link-tempo-range',
        'The tempo 300 is not between 24 and 120.',
        'The nearest it can be is 120.',
      ],
    ],
  ],
  [
    'a harp that does not exist',
    linked('?harp=H#head'),
    [
      [
        'lessons/first.mdx:5:11-12',
        'link-harp-unknown',
        'There is no harp in “H”.',
        'Write a key, as in harp=A or harp=low+F. A sharp is written as %23, as in harp=F%23.',
      ],
    ],
  ],
  [
    'a tuning that does not exist',
    linked('?tuning=minor-natural#head'),
    [
      [
        'lessons/first.mdx:5:13-26',
        'link-tuning-unknown',
        'There is no tuning “minor-natural”.',
        'Did you mean “natural-minor”?',
      ],
    ],
  ],
  [
    'an address in quotation marks with entities, as a whole',
    first(`<a href="?bars=9&amp;tempo=60#head">a</a>${BLOCK}`),
    [
      [
        'lessons/first.mdx:5:10-35',
        'link-bars-unknown',
        'The block “head” has no bar 9.',
        'Its bars are: 1 to 2, 3.1, 3.2.',
      ],
    ],
  ],
  // What is right.
  ['bars, a tempo, a loop and a harp', linked('?bars=1-3.2&tempo=60%25&loop=no&harp=low+F#head'), []],
  ['a share as it is written', linked('first?tempo=60%#head'), []],
  ['a harp for a lesson', linked('first?harp=A'), []],
  [
    'bars of a block that cannot be read',
    first('[a](?bars=9#bad)\n\n```tab\nid: bad\nslot: 1/1\n44 | 5\n```\n'),
    UNREAD,
  ],
];

describe('a link that asks for', () => {
  test.each(CASES)('%s', (_, files, wanted) => expect(problemsIn(files, CASES)).toEqual(wanted));

  test('every code is met', () => {
    expect(Object.keys(BLOCK_LINK_PROBLEMS).filter((code) => !codesOf(CASES).has(code))).toEqual([]);
  });

  test.each([
    ['?loop=false&bars=1#head', '?loop=no&bars=1#head', true],
    ['?bars=2-1#head', '?bars=1-2#head', false],
    ['?bar=1#head', '?bars=1#head', false],
    ['?tempo=300#head', '?tempo=120#head', false],
  ])('%s can become %s', (url, fixed, certain) => {
    const course = courseInMemory(linked(url));
    const { fix } = present(
      course.problems.find(({ code }) => code.startsWith('link-')),
      'a problem',
    );
    expect(fix?.certain).toBe(certain);
    const { column, endColumn, text } = present(fix?.edits[0], 'an edit');
    const line = `[a](${url})`;
    expect(line.slice(0, column - 1) + text + line.slice(endColumn - 1)).toBe(`[a](${fixed})`);
  });
});

test('a link keeps what it asks for on the site, below any base', () => {
  const course = courseInMemory({
    ...first(`[a](?bars=1-2&tempo=60#head) [b](first.mdx?bars=1#block-head) [c](first?harp=A)${BLOCK}`),
  });
  const lesson = present(course.byId.get('first'), 'the lesson');
  expect(lesson.links.map(({ url }) => addressOf(addressesUnder('/school'), lesson, url))).toEqual([
    '/school/lessons/first/?bars=1-2&tempo=60#block-head',
    '/school/lessons/first/?bars=1#block-head',
    '/school/lessons/first/?harp=A',
  ]);
});
