import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keyNote, namedOnHarp } from '../../src/instrument/harp.ts';
import { plainName, plainPitch } from '../../src/instrument/pitch.ts';
import { readTuning, type WrittenTuning } from '../../src/instrument/read-tuning.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { KEYS } from './some-harp.ts';

const own = (written: Partial<WrittenTuning>): WrittenTuning => ({
  id: 'own',
  blow: 'C E G C E G C E G C',
  draw: 'D G B D F A B D F A',
  ...written,
});
const faultsOf = (written: Partial<WrittenTuning>) => {
  const read = readTuning(own(written));
  return 'faults' in read ? read.faults : [];
};
const rowsOf = (written: Partial<WrittenTuning>) => {
  const read = readTuning(own(written));
  if ('faults' in read) throw new Error(read.faults.map(({ message }) => message).join('; '));
  return read.tuning;
};

describe('a tuning by its reeds', () => {
  it('reads the Richter layout from its note names', () => {
    expect(rowsOf({})).toMatchObject({ blow: RICHTER.blow, draw: RICHTER.draw });
  });

  it('reads the same layout in any key, from names with or without octaves', () => {
    fc.assert(
      fc.property(fc.constantFrom(...KEYS), fc.constantFrom(...TUNINGS), fc.boolean(), (key, tuning, octaves) => {
        const harp = { key, register: 'standard', tuning } as const;
        const name = (semitones: number) => {
          const pitch = namedOnHarp(harp, keyNote(harp) + semitones);
          return octaves ? plainPitch(pitch) : plainName(pitch);
        };
        // A name may carry two signs here, which no author writes on a reed.
        const rows = { blow: tuning.blow.map(name), draw: tuning.draw.map(name) };
        fc.pre(![...rows.blow, ...rows.draw].some((text) => /bb|##/.test(text)));
        expect(rowsOf(rows)).toMatchObject({ blow: tuning.blow, draw: tuning.draw });
      }),
    );
  });

  it('takes lists and printed signs, and a row that falls where octaves are written', () => {
    expect(rowsOf({ blow: ['C', 'E', 'G', 'C'], draw: ['D', 'G4', 'B♭4', 'A4'] }).draw).toEqual([2, 7, 10, 9]);
  });

  it('counts from the key that is named, where hole 1 is not the key note', () => {
    expect(rowsOf({ key: 'G' }).blow.slice(0, 3)).toEqual([5, 9, 12]);
    expect(rowsOf({ key: 'F' }).blow.slice(0, 3)).toEqual([-5, -1, 2]);
  });

  it('gives a slide valves unless they are said to be off', () => {
    expect(rowsOf({ slide: true })).toMatchObject({ slide: 1, valves: true });
    expect(rowsOf({ slide: true, valves: false })).not.toHaveProperty('valves');
    expect(rowsOf({})).not.toHaveProperty('slide');
    expect(rowsOf({})).not.toHaveProperty('valves');
    expect(rowsOf({ valves: true })).toMatchObject({ valves: true });
  });

  it('reports every mistake with its field and its word', () => {
    expect(faultsOf({ id: 'My tuning', blow: 'C E H C', draw: 'D Gis B D', key: 'x' })).toEqual([
      expect.objectContaining({ field: 'id' }),
      expect.objectContaining({ field: 'blow', word: 2, message: '“H” is not a note.' }),
      expect.objectContaining({ field: 'draw', word: 1 }),
      expect.objectContaining({ field: 'key' }),
    ]);
  });

  it('does not replace a tuning that is there', () => {
    expect(faultsOf({ id: 'richter' })).toEqual([
      expect.objectContaining({ field: 'id', message: 'The tuning richter is already there.' }),
    ]);
  });

  it('has an id of small letters, digits and hyphens, which is its title too where it has none', () => {
    expect(rowsOf({ id: 'my-2nd-tuning' })).toMatchObject({ id: 'my-2nd-tuning', title: 'my-2nd-tuning' });
    expect(rowsOf({ title: 'My second' }).title).toBe('My second');
    for (const id of ['', 'my tuning', 'tuning-', '-tuning', 'My', 'my--tuning'])
      expect(faultsOf({ id })).toHaveLength(1);
  });

  it('takes notes apart at spaces and commas, and nothing else for a note', () => {
    expect(rowsOf({ blow: ' C, E G,C  E G C E G C ' }).blow).toEqual(RICHTER.blow);
    for (const word of ['4C', 'C45', 'C4x']) expect(faultsOf({ blow: `${word} E G C E G C E G C` })).toHaveLength(1);
  });

  it('wants a pair of reeds a hole, a harp of a size, and reeds that fit in one hole', () => {
    expect(faultsOf({ draw: 'D G B' })[0]).toMatchObject({
      field: 'draw',
      message: 'There are 10 blow reeds and 3 draw reeds.',
    });
    expect(faultsOf({ blow: 'C E', draw: 'D G' })[0]).toMatchObject({
      field: 'blow',
      message: 'A harp has 4 to 16 holes, and this one 2.',
    });
    const holes = (count: number) => ({ blow: Array(count).fill('C'), draw: Array(count).fill('D') });
    expect([4, 16].flatMap((count) => faultsOf(holes(count)))).toEqual([]);
    expect([3, 17].flatMap((count) => faultsOf(holes(count)))).toHaveLength(2);
    expect(faultsOf({ blow: 'C4 E4 G4 C5', draw: 'C5 E4 G4 C5' })).toEqual([]);
    expect(faultsOf({ blow: 'C4 E4 G4 C5', draw: 'C#5 E4 G4 C5' })[0]?.word).toBe(0);
    const wide = faultsOf({ blow: 'C4 E4 G4 C5', draw: 'D4 G4 B4 D7' });
    expect(wide).toEqual([expect.objectContaining({ field: 'draw', word: 3 })]);
    expect(wide[0]?.message).toBe('The reeds of hole 4 would be more than an octave apart: blow C5, draw D7.');
  });

  it('throws at nothing', () => {
    fc.assert(
      fc.property(
        fc.string(),
        fc.string(),
        fc.string(),
        fc.option(fc.string(), { nil: undefined }),
        (id, blow, draw, key) => {
          readTuning({ id, blow, draw, key });
        },
      ),
    );
  });
});
