import { describe, expect, it } from 'vitest';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { readBlock } from '../../src/notation/read.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { staffNotes } from '../../src/score/spelling.ts';
import { present } from '../../src/values/checked.ts';

/** From two flats up, in quarter steps. */
const SIGNS = ['bb', '3qb', 'b', 'qb', 'n', 'q#', '#', '3q#', '##'];

/** `B4 Bb4(b)`: each sounding note as it is on the staff, with the sign it prints. */
function staff(text: string): string {
  const { score, diagnostics } = readBlock(text);
  expect(diagnostics).toEqual([]);
  const byEvent = staffNotes(present(score, 'the score'));
  return present(score, 'the score')
    .bars.map((bar) =>
      bar.events
        .filter(isSoundEvent)
        .map((event) =>
          (byEvent[event.index] ?? [])
            .map(({ pitch, accidental }) => {
              const sign = accidental === undefined ? '' : `(${SIGNS[2 * accidental + 4]})`;
              return plainPitch(pitch) + sign;
            })
            .join('+'),
        )
        .join(' '),
    )
    .join(' | ');
}

const cross = (music: string, chords = 'I7'): string =>
  `harp: C\nposition: 2\nslot: 1/4\nchords: ${chords}\n\n${music}`;

describe('notes on the staff', () => {
  it('print a sign where the signature says otherwise, once a bar, and take it back with a natural', () => {
    expect(staff(cross("-3' -3' -3 -3"))).toBe('Bb4(b) Bb4 B4(n) B4');
    expect(staff(cross("-3' = = . | -3 -3' . ."))).toBe('Bb4(b) | B4 Bb4(b)');
    expect(staff(cross('-5 -5 . .'))).toBe('F5(n) F5');
  });

  it('print the sign of a quarter step, and take it back', () => {
    expect(staff(cross('-3q -3q -3 -3q'))).toBe('Bq4(qb) Bq4 B4(n) Bq4(qb)');
    expect(staff(cross("-3q -3' -3'q -3"))).toBe('Bq4(qb) Bb4(b) Bbq4(3qb) B4(n)');
    expect(staff(cross("-2'q -2' -5q -5"))).toBe('F#q4(q#) F#4(#) Fq5(qb) F5(n)');
    expect(staff(cross('. . . -3q | = -3 -3q .', 'I7 | IV7'))).toBe('Bq4(qb) | Bq4 B4(n) Bq4(qb)');
    expect(staff(cross('-(2q 3q) . . .'))).toBe('Gq4(qb)+Bq4(qb)');
  });

  it('keep a sign to its own octave', () => {
    expect(staff(cross("-2'' -5 . ."))).toBe('F4(n) F5(n)');
  });

  it('print no sign on a note tied over the bar line, and none is left for the notes after it', () => {
    expect(staff(cross("-3 . . -3' | = -3' -3 ."))).toBe('B4 Bb4(b) | Bb4 Bb4(b) B4(n)');
  });

  it('keep the name a held note began with, whatever the next chord would call it', () => {
    expect(staff(cross(". . . -2' | = = . .", 'I7 | IV7'))).toBe('F#4 | F#4');
    expect(staff(cross(". . . . | -2' = . .", 'I7 | IV7'))).toBe(' | Gb4(b)');
  });

  it('spell several holes each for itself', () => {
    expect(staff(cross('-(3 4 5) . . .'))).toBe('B4+D5+F5(n)');
  });
});
