import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatBlock } from '../../../src/notation/format/format.ts';
import { careless, checkFormatted } from '../../fuzz/format.ts';
import { cases } from '../../setup/long.ts';

/** The clean form of a block, written as a list of its lines. */
function clean(...lines: readonly string[]): readonly string[] {
  const text = lines.join('\n');
  const formatted = formatBlock(text);
  if (!('lines' in formatted)) throw new Error(`not formatted: ${JSON.stringify(formatted)}`);
  checkFormatted(text, []);
  return formatted.lines;
}

describe('the clean form of a block', () => {
  test('has its bars in columns, four in a line', () => {
    expect(clean('slot: 1/4', '', '4 5 6 7|-4 -5 -6 -7 | 4=3 | 5 =3 | 6 5 4 . |', '-4 =3 | 4 5', '6 7 |]')).toEqual([
      'slot: 1/4',
      '',
      '4 5 6 7 | -4 -5 -6 -7 | 4 =3    | 5 =3 |',
      '6 5 4 . | -4 =3       | 4 5 6 7 |]',
    ]);
  });
  test('keeps lines that have two or three bars each', () => {
    const three = ['4 =3 | 5 =3 | 6 =3 |', '6 =3 | 5 =3 | 4 =3 |', '4 =3 |]'];
    expect(clean(...three)).toEqual(three);
    const two = ['4 =3 | 5 =3 |', '6 =3 | 5 =3 |', '4 =3 |]'];
    expect(clean(...two)).toEqual(two);
  });
  test('leaves a last bar alone in the line before it, where its author wrote it there', () => {
    const five = ['4 =3 | 5 =3 | 6 =3 | 5 =3 | 4 =3 |]'];
    expect(clean(...five)).toEqual(five);
    expect(clean('4 =3 | 5 =3 | 6 =3 | 5 =3 | 4 =3 | 5 =3 |]')).toEqual([
      '4 =3 | 5 =3 | 6 =3 | 5 =3 |',
      '4 =3 | 5 =3 |]',
    ]);
  });
  test('has fewer bars in a line where four are too long', () => {
    const bar = '-(1 2 3)[accent] (4 5 6)[accent] -(1 2 3)[accent] (4 5 6)';
    expect(clean([bar, bar, '4 =3', '5 =3', bar, bar].join(' | '))).toEqual([
      `${bar} |`,
      `${bar} |`,
      `4 =3 | 5 =3 |`,
      `${bar} |`,
      bar,
    ]);
  });
  test('has a pickup beside the bars of the other lines', () => {
    expect(clean('pickup: 2', '', '4 -4 | 5 =7 | 6 =7 | 5 =7 | 4 =7', '| 5 =7 | 6 =7 | 5 =7 | 4 =5 |]')).toEqual([
      'pickup: 2',
      '',
      '4 -4 | 5 =7 | 6 =7 | 5 =7 | 4 =7 |',
      '       5 =7 | 6 =7 | 5 =7 | 4 =5 |]',
    ]);
  });
  test('begins a line with each later ending, which is as long as the first', () => {
    expect(clean('|: 4 =7 | 5 =7 | 6 =7 |1 5 =7 :|2 4 =7 | 5 =7 | 6 =7 | 5 =7 | 4 =7 |]')).toEqual([
      '|:  4 =7 | 5 =7 | 6 =7 |1 5 =7',
      ':|2 4 =7 |',
      '    5 =7 | 6 =7 | 5 =7 |  4 =7 |]',
    ]);
  });
  test('ends a line with a double bar line', () => {
    expect(clean('4 =7 | 5 =7 || 6 =7 |segno 5 =7 | 4 =7 |D.S.')).toEqual([
      '4 =7 | 5 =7 ||',
      '6 =7 |segno 5 =7 | 4 =7 |D.S.',
    ]);
  });
  test('has words under their notes, in the author’s apostrophes', () => {
    expect(
      clean(
        'slot: 1/4',
        '5 5 -5 6 | {6 -5} 5 -4 = |',
        'words: ’Tis so stea-dy we-',
        'words 3: a _ * d - e',
        'syllables: ta',
        '4 =3 |]',
      ),
    ).toEqual([
      'slot: 1/4',
      '           5    5  -5   6 | {6 -5} 5 -4 = |',
      'words:     ’Tis so stea-dy  we-',
      'words 3:   a    _  *    d   e',
      'syllables: ta',
      '           4 =3           |]',
    ]);
  });
  test('leaves words under a quotation where their author put them, since it is not known how many notes it has', () => {
    expect(clean('slot: 1/4', 'phrase a: 4 5', '<a> 6  7 |', 'words:  one  two-three four', '4 =3')).toEqual([
      'slot: 1/4',
      'phrase a: 4 5',
      '<a> 6  7 |',
      'words:  one  two-three four',
      '4 =3',
    ]);
  });
  test('divides a line that is too long together with its words', () => {
    const bar = `5[accent vibrato] -5[accent vibrato] 5[accent vibrato] -4[accent vibrato]`;
    expect(clean('slot: 1/4', `${bar} | ${bar} |]`, 'words: a b c d-e f g h', 'words: i j k l m n o p')).toEqual([
      'slot: 1/4',
      `       ${bar} |`,
      'words: a                 b                  c                 d-',
      'words: i                 j                  k                 l',
      `       ${bar} |]`,
      'words: e                 f                  g                 h',
      'words: m                 n                  o                 p',
    ]);
  });
  test('keeps each comment with its line', () => {
    expect(
      clean(
        '# A remark',
        'slot: 1/4  # quarters',
        'tempo: 100 # slow',
        '',
        '4 5 6 7 | # up',
        '7 6 5 4 | 4 =3 | # down',
        '  # Then:',
        '4 =3 | # ',
        '5 =3 |]',
      ),
    ).toEqual([
      '# A remark',
      'slot: 1/4   # quarters',
      'tempo: 100  # slow',
      '',
      '4 5 6 7 |         # up',
      '7 6 5 4 | 4 =3 |  # down',
      '# Then:',
      '4 =3    | 5 =3 |]',
    ]);
  });
  test('has one empty line where there were several, and none at its ends', () => {
    expect(clean('', 'slot: 1/4', ' ', '', '4 =3 |', '', '\t', '5 =3 |]', '', '')).toEqual([
      'slot: 1/4',
      '',
      '4 =3 |',
      '',
      '5 =3 |]',
    ]);
  });
  test('keeps the order of settings, and where they change', () => {
    expect(
      clean(
        'tempo:  90',
        'slot:1/4',
        'chords: I7|IV7 =|',
        '4 5 6 7 |',
        'tempo: to  60',
        'text:  slower   now',
        '7 6 5 4 |]',
      ),
    ).toEqual([
      'tempo: 90',
      'slot: 1/4',
      'chords: I7 | IV7 = |',
      '4 5 6 7 |',
      'tempo: to 60',
      'text: slower   now',
      '7 6 5 4 |]',
    ]);
  });
  test('has phrases one below the other', () => {
    expect(
      clean('slot: 1/4', 'phrase a:4 5| 6', 'phrase long:  4 | 5', '<b:a>', '<a> <long  to  "IV7">[accent,ghost]'),
    ).toEqual(['slot: 1/4', 'phrase a:    4 5 | 6', 'phrase long: 4   | 5', '<b:a> <a> <long to "IV7">[accent ghost]']);
  });
  test('writes marks, chords and holes with single spaces, and plain signs for those of word processors', () => {
    expect(clean('–(1,2  3)[accent,  ghost]{ 4 5 }2"I7"=@tongue 4>4’ > −4 . .3│ % |]')).toEqual([
      '-(1 2 3)[accent ghost] {4 5}2 "I7" = @tongue 4> 4\' > -4 . .3 | % |]',
    ]);
  });
  test('needs one bar line where one ends a line and another begins the next', () => {
    expect(clean('4 =7 |', '| 5 =7 |', '|: 6 =7 :|')).toEqual(['4 =7 | 5 =7 | |: 6 =7 :|']);
  });
});

describe('a block with errors', () => {
  test.each([
    ['slot: 1/4\n4 5 6 x |', 1],
    ['slott: 1/4\n4[slpa] "H7"', 3],
    ['4 5\nharp: A', 1],
  ])('has no clean form: %j', (text, errors) => {
    expect(formatBlock(text)).toEqual({ errors });
  });
});

describe('the laws of the clean form', () => {
  test('it says the same, has the same comments, and is its own clean form', () => {
    fc.assert(
      fc.property(careless, (text) => checkFormatted(text, [])),
      { numRuns: cases(150, 5000) },
    );
  });
});
