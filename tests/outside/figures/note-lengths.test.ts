/**
 * Note lengths: what the names mean, and that the signs beside them say the same. A quarter is a beat, the other values halve or double it, a
 * dot adds half of a note, a triplet has three in the time of two: the encyclopaedia articles "Note value" and "Tuplet", from memory.
 */
import { expect, test } from 'vitest';
import { LENGTH_ROWS, signOfLengths } from '../../../src/engrave/figure/note-lengths.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { soundsOf } from '../../../src/score/queries.ts';
import { fraction } from '../../../src/time/fraction.ts';
import { present } from '../../../src/values/checked.ts';

/** Of each row, in sixtieths of a beat. */
const BEATS = [[240], [180], [120], [90, 30], [60], [30, 30], [20, 20, 20], [15, 15, 15, 15]];
const NAMES = ['whole', 'dotted half', 'half', 'dotted quarter', 'quarter', 'eighth', 'triplet', 'sixteenth'];

test('every length is what its name says', () => {
  expect(LENGTH_ROWS.map(({ lengths }) => lengths.map(({ n, d }) => (240 * n) / d))).toEqual(BEATS);
  LENGTH_ROWS.forEach(({ name }, index) => {
    expect(name.toLowerCase()).toContain(NAMES[index]);
  });
});

test.each([4, 8, 16])('in slots of 1/%i every sign is read as its lengths', (slot) => {
  LENGTH_ROWS.forEach(({ lengths }, index) => {
    const sign = signOfLengths(lengths, fraction(1, slot));
    const rest = slot - (present(BEATS[index], sign).reduce((sum, own) => sum + own) * slot) / 240;
    const { score, diagnostics } = readBlock(`slot: 1/${slot}\n\n${sign} ${rest > 0 ? `.${rest}` : ''} |]`);
    expect(diagnostics, sign).toEqual([]);
    const read = soundsOf(present(score, sign)).map(({ duration: { n, d } }) => (240 * n) / d);
    expect(read, sign).toEqual(BEATS[index]);
  });
});
