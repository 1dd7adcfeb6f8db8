import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Harp, keyNote, readHarp } from '../../src/instrument/harp.ts';
import { notesOf, tabOf } from '../../src/instrument/playable.ts';
import {
  centsOf,
  centsOfRatio,
  chordRoot,
  frequencyOf,
  frequencyOfMidi,
  ratioToChord,
  ratioToKey,
  TEMPERAMENTS,
} from '../../src/instrument/temperament.ts';
import { RICHTER, TUNINGS, type Tuning } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const [, compromise, just] = TEMPERAMENTS;

const tuningOf = (id: string): Tuning =>
  present(
    TUNINGS.find((row) => row.id === id),
    id,
  );

describe('the chord of a breath', () => {
  it('is on the key note or its fifth where the breath has them, else on its lowest reed', () => {
    const chords = (tuning: Tuning) => [chordRoot(tuning, 'blow'), chordRoot(tuning, 'draw')];
    expect(chords(RICHTER)).toEqual([0, 7]);
    expect(chords(tuningOf('solo-chromatic'))).toEqual([0, 2]);
    expect(chords({ ...RICHTER, blow: [4, 7, 11], draw: [17, 21, 24] })).toEqual([4, 5]);
  });

  it('has a seventh of 7/4 over a major third, and of 9/5 over a minor one alone', () => {
    expect(ratioToChord(RICHTER, 'draw', 17)).toEqual([7, 4]);
    expect(ratioToChord(tuningOf('natural-minor'), 'draw', 17)).toEqual([9, 5]);
    expect(ratioToChord(tuningOf('natural-minor'), 'blow', 10)).toEqual([9, 5]);
    expect(ratioToChord({ ...RICHTER, blow: [0, 3, 4, 7] }, 'blow', 10)).toEqual([7, 4]);
    expect(ratioToChord(tuningOf('natural-minor'), 'draw', 10)).toEqual([6, 5]);
  });

  it('is tuned to the key note by pure fifths: draw 5 of a Richter harp is 21/16, a fourth above is 4/3', () => {
    expect(ratioToKey(RICHTER, 'draw', 17)).toEqual([21, 16]);
    expect(ratioToKey({ ...RICHTER, draw: [5, 9, 12] }, 'draw', 5)).toEqual([4, 3]);
    expect(ratioToKey({ ...RICHTER, draw: [10, 14, 17] }, 'draw', 10)).toEqual([16, 9]);
  });
});

describe('frequencies', () => {
  it('double every octave from A4 at 440 hertz, or at the concert pitch', () => {
    expect([57, 69, 81].map((midi) => frequencyOfMidi(midi))).toEqual([220, 440, 880]);
    expect(frequencyOfMidi(69, 442)).toBe(442);
  });

  it('are those of equal temperament where nothing is said, on any harp', () => {
    fc.assert(
      fc.property(someHarp(), (harp) => {
        for (const note of notesOf(harp)) expect(frequencyOf(harp, note.breath, note)).toBe(frequencyOfMidi(note.midi));
      }),
    );
  });

  it('lie as far from equal as the cents say, at any concert pitch', () => {
    fc.assert(
      fc.property(
        someHarp(),
        fc.integer({ min: 392, max: 466 }),
        fc.constantFrom(...TEMPERAMENTS),
        (harp, concertA, temperament) => {
          for (const note of notesOf(harp)) {
            const hertz = frequencyOf(harp, note.breath, note, { concertA, temperament });
            const cents = 1200 * Math.log2(hertz / frequencyOfMidi(note.midi, concertA));
            expect(cents).toBeCloseTo(centsOf(harp, note.breath, note, temperament), 6);
            expect(Math.abs(cents)).toBeLessThan(50);
          }
        },
      ),
    );
  });

  it('keep the key note where equal temperament has it', () => {
    fc.assert(
      fc.property(someHarp(), fc.constantFrom(...TEMPERAMENTS), (harp, temperament) => {
        for (const note of notesOf(harp).filter(
          ({ breath, midi }) => breath === 'blow' && midi === keyNote(harp) && !harp.tuning.slide,
        )) {
          if (chordRoot(harp.tuning, 'blow') === 0) expect(centsOf(harp, 'blow', note, temperament)).toBeCloseTo(0, 9);
        }
      }),
    );
  });

  it('throw at a note the harp has not got', () => {
    const C = present(readHarp('C', RICHTER), 'the harp');
    expect(() => frequencyOf(C, 'blow', { hole: 11, bend: 0, over: false, slide: false })).toThrow(RangeError);
  });
});

describe('just reeds', () => {
  it('are the same interval in every octave of one breath, on any harp', () => {
    fc.assert(
      fc.property(
        someHarp(),
        fc.integer({ min: -12, max: 48 }),
        fc.constantFrom('blow', 'draw'),
        ({ tuning }, semitones, breath) => {
          expect(ratioToKey(tuning, breath, semitones + 12)).toEqual(ratioToKey(tuning, breath, semitones));
          const [n, d] = ratioToKey(tuning, breath, semitones);
          expect(n >= d && n < 2 * d).toBe(true);
        },
      ),
    );
  });

  it('lie within 32 cents of equal to their chord', () => {
    fc.assert(
      fc.property(
        someHarp(),
        fc.integer({ min: 0, max: 36 }),
        fc.constantFrom('blow', 'draw'),
        ({ tuning }, semitones, breath) => {
          const above = (((semitones - chordRoot(tuning, breath)) % 12) + 12) % 12;
          expect(Math.abs(centsOfRatio(ratioToChord(tuning, breath, semitones)) - 100 * above)).toBeLessThan(32);
        },
      ),
    );
  });

  it('take a bend into the tune of its breath: draw 2 bent a whole step is draw 5 an octave lower', () => {
    const C = present(readHarp('C', RICHTER), 'the harp');
    const cents = (tab: string) => {
      const note = notesOf(C).find((each) => tabOf(each) === tab);
      if (!note) throw new Error(tab);
      return centsOf(C, note.breath, note, just);
    };
    expect(cents("-2''")).toBe(cents('-5'));
    expect(cents("10'")).toBeCloseTo(-11.73, 2);
  });

  it('move as one with the slide', () => {
    const solo: Harp = {
      key: { letter: 'C', alter: 0 },
      register: 'standard',
      tuning: present(
        TUNINGS.find(({ id }) => id === 'solo-chromatic'),
        'the tuning',
      ),
    };
    for (const note of notesOf(solo).filter(({ slide }) => !slide)) {
      for (const temperament of [compromise, just]) {
        expect(centsOf(solo, note.breath, { ...note, slide: true }, temperament)).toBe(
          centsOf(solo, note.breath, note, temperament),
        );
      }
    }
  });
});
