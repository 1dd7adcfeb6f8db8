/** The least effort: what is easy comes first, and nothing else that gives the same pitches is easier. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  easiestHoles,
  effortBetween,
  effortOf,
  type HeldHoles,
  type WantedSound,
} from '../../src/instrument/easiest-holes.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { notesOf, tabOfNotes } from '../../src/instrument/playable.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { itemAt, present, valueAt } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');
const one = (midi: number, glides = false): WantedSound => ({ pitches: [midi], glides, sideBySide: true });
const shown = (wanted: readonly WantedSound[], harp = C): string | undefined =>
  easiestHoles(harp, wanted)
    ?.sounds.map(({ notes, breath }) => tabOfNotes(notes, breath))
    .join(' ');

describe('the easiest holes', () => {
  test('are plain reeds before bends, and bends before overbends', () => {
    // G4 is draw 2 and blow 3; Eb5 is overblow 4 alone; B4 is draw 3.
    expect(shown([one(71)])).toBe('-3');
    expect(shown([one(70)])).toBe("-3'");
    expect(shown([one(75)])).toBe('4o');
    const [richter, solo] = [RICHTER, valueAt(new Map(TUNINGS.map((own) => [own.id, own])), 'solo-chromatic')];
    // E flat on a chromatic is draw 1 with the slide.
    expect(shown([one(63)], { ...C, tuning: richter })).toBe('1o');
    expect(shown([one(63)], { ...C, tuning: solo })).toBe('-1*');
  });
  test('are near each other', () => {
    expect(shown([one(67), one(71)])).toBe('-2 -3');
    expect(shown([one(67), one(72)])).toBe('3 4');
  });
  test('are on one breath where they glide or sound together', () => {
    expect(shown([one(67, true), one(65)])).toBe("-2 -2''");
    expect(shown([one(67, true), one(64)])).toBe('3 2');
    expect(shown([one(71, true), one(72)])).toBeUndefined();
    expect(shown([{ pitches: [67, 71, 74], glides: false, sideBySide: true }])).toBe('-(2 3 4)');
    expect(shown([{ pitches: [60, 72], glides: false, sideBySide: false }])).toBe('(1 4)');
    expect(shown([{ pitches: [60, 72], glides: false, sideBySide: true }])).toBeUndefined();
    expect(shown([{ pitches: [60, 62], glides: false, sideBySide: true }])).toBeUndefined();
  });
  test('are none for what the harp does not have, and nothing for nothing', () => {
    expect(shown([one(60), one(59)])).toBeUndefined();
    expect(shown([])).toBe('');
  });

  /** Every way to play some single notes in order. */
  const everyWay = (harp: typeof C, wanted: readonly WantedSound[]): HeldHoles[][] =>
    wanted.reduce<HeldHoles[][]>(
      (ways, { pitches }, index) =>
        ways.flatMap((way) =>
          notesOf(harp)
            .filter(({ midi }) => midi === pitches[0])
            .map((note): HeldHoles[] => [...way, { breath: note.breath, notes: [note] }])
            .filter((longer) => {
              const glided = wanted[index - 1]?.glides === true;
              return !glided || itemAt(longer, index - 1).breath === itemAt(longer, index).breath;
            }),
        ),
      [[]],
    );
  const effort = (way: readonly HeldHoles[]): number =>
    way.reduce((sum, held, index) => {
      const before = way[index - 1];
      return (
        sum + held.notes.reduce((own, note) => own + effortOf(note), 0) + (before ? effortBetween(before, held) : 0)
      );
    }, 0);

  test('need less effort than any others, on every harp', () => {
    fc.assert(
      fc.property(
        someHarp(),
        fc.array(fc.tuple(fc.nat(60), fc.boolean()), { minLength: 1, maxLength: 5 }),
        (harp, picks) => {
          const all = notesOf(harp);
          const wanted = picks.map(([pick, glides]) => one(itemAt(all, pick % all.length).midi, glides));
          const ways = everyWay(harp, wanted);
          const found = easiestHoles(harp, wanted);
          expect(found === undefined).toBe(ways.length === 0);
          if (!found) return;
          expect(effort(found.sounds)).toBe(found.effort);
          expect(found.effort).toBe(Math.min(...ways.map(effort)));
        },
      ),
    );
  });
});
