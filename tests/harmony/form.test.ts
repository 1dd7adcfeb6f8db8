import { describe, expect, test } from 'vitest';
import { plainChord } from '../../src/harmony/chord.ts';
import { barsOfForm, chordsOfBar, FORMS, readForm, symbolsOf } from '../../src/harmony/form.ts';
import { songKey } from '../../src/harmony/key.ts';
import { format, fraction } from '../../src/time/fraction.ts';
import { itemAt } from '../../src/values/checked.ts';

const barsOf = (text: string): number | undefined => {
  const read = readForm(text);
  return 'bars' in read ? read.bars.length : undefined;
};

describe('a progression', () => {
  test.each(FORMS)('$id reads, and has the bars its name says', ({ id, bars }) => {
    const count = id.startsWith('eight') ? 8 : id.startsWith('sixteen') ? 16 : 12;
    expect(barsOf(bars)).toBe(count);
  });
  test('has a name that stays, and a title of its own', () => {
    expect(FORMS.map(({ id }) => id)).toEqual([
      'twelve-bar',
      'twelve-bar-turnaround',
      'twelve-bar-plain',
      'quick-change',
      'quick-change-turnaround',
      'minor-twelve-bar',
      'eight-bar',
      'eight-bar-halves',
      'sixteen-bar',
    ]);
    expect(new Set(FORMS.map(({ title }) => title)).size).toBe(FORMS.length);
    expect(FORMS.filter(({ title }) => title === '')).toEqual([]);
  });
  test('is read once, and asked for its symbols in order', () => {
    const form = itemAt(FORMS, 6);
    const read = barsOfForm(form);
    expect(read).toEqual(readForm(form.bars));
    expect(barsOfForm(form)).toBe(read);
    expect('bars' in read && symbolsOf(read.bars).join(' ')).toBe('I7 V7 IV7 IV7 I7 V7 IV7 I7 V7');
  });
  test('may have bars in which no chord sounds', () => {
    const read = readForm('C7 N.C. | N.C.');
    const key = songKey({ letter: 'C', alter: 0 }, 'major');
    const bars = 'bars' in read ? read.bars : [];
    expect(bars.map((bar) => chordsOfBar(bar, key, fraction(1)).map(({ chord }) => plainChord(chord)))).toEqual([
      ['C7', 'N.C.'],
      ['N.C.'],
    ]);
  });
  test('shares a bar evenly, and = holds for one more share', () => {
    const read = readForm('I7 = = V7 | IV7 I7');
    const key = songKey({ letter: 'A', alter: 0 }, 'major');
    const shown =
      'bars' in read
        ? read.bars.map((bar) =>
            chordsOfBar(bar, key, fraction(1)).map(({ onset, chord }) => `${format(onset)} ${plainChord(chord)}`),
          )
        : [];
    expect(shown).toEqual([
      ['0 A7', '3/4 E7'],
      ['0 D7', '1/2 A7'],
    ]);
  });
  test.each([
    ['I7 | X', 'X', 5],
    ['I7 || V7', '', 4],
    ['= | I7', '=', 0],
    ['I7 |  = V7', '=', 6],
    ['', '', 0],
  ])('“%s” is refused at “%s”', (text, bad, offset) => {
    expect(readForm(text)).toEqual({ bad, offset });
  });
  test('a closing bar line is no empty bar', () => {
    expect([barsOf('I7 | V7 |'), barsOf('I7 | V7 |]'), barsOf('I7 | V7 |] ')]).toEqual([2, 2, 2]);
  });
});
