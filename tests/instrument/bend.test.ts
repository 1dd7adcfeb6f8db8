import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bendingHoles, bendsOfHole, sounding } from '../../src/instrument/bend.ts';
import { type Harp, holeCount, keyNote, readHarp, reed } from '../../src/instrument/harp.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');
const plain = { bend: 0, over: false, slide: false };

describe('the holes that bend', () => {
  // Common practice, no source: draw 5 and blow 7 have a half step between their reeds, and nothing to bend to.
  it('are draw 1 to 4 and 6, and blow 8 to 10, on a Richter harp', () => {
    expect([bendingHoles(C, 'draw'), bendingHoles(C, 'blow')]).toEqual([
      [1, 2, 3, 4, 6],
      [8, 9, 10],
    ]);
  });
});

describe('the sound of a hole', () => {
  it('refuses what is not on the harp, by name of the fault', () => {
    expect(sounding(C, 'blow', { ...plain, hole: 11 })).toEqual({ fault: 'no-hole' });
    expect(sounding(C, 'blow', { ...plain, hole: 0 })).toEqual({ fault: 'no-hole' });
    expect(sounding(C, 'blow', { ...plain, hole: 1.5 })).toEqual({ fault: 'no-hole' });
    expect(sounding(C, 'blow', { ...plain, hole: 3, bend: 1 })).toEqual({ fault: 'no-bend' });
    expect(sounding(C, 'draw', { ...plain, hole: 5, bend: 1 })).toEqual({ fault: 'no-bend' });
    expect(sounding(C, 'draw', { ...plain, hole: 2, bend: 3 })).toEqual({ fault: 'bend-too-deep' });
    expect(sounding(C, 'draw', { ...plain, hole: 4, over: true })).toEqual({ fault: 'no-overbend' });
    expect(sounding(C, 'draw', { ...plain, hole: 4, slide: true })).toEqual({ fault: 'no-slide' });
  });

  it('never bends to or past the other reed, in any tuning, key and register', () => {
    fc.assert(
      fc.property(someHarp(), (harp) => {
        for (let hole = 1; hole <= holeCount(harp); hole++) {
          const { bends, deepest } = bendsOfHole(harp, hole);
          if (!bends) continue;
          const other = reed(harp, hole, bends === 'blow' ? 'draw' : 'blow');
          for (let bend = 1; bend <= deepest; bend++) {
            expect(sounding(harp, bends, { ...plain, hole, bend })).toEqual({ midi: reed(harp, hole, bends) - bend });
          }
          expect(reed(harp, hole, bends) - deepest).toBe(other + 1);
          expect(sounding(harp, bends, { ...plain, hole, bend: deepest + 1 })).toHaveProperty('fault');
        }
      }),
    );
  });

  it('moves every note of a tuning by the same interval from one harp to another', () => {
    fc.assert(
      fc.property(someHarp(), someHarp(), fc.nat(11), fc.boolean(), (one, two, index, over) => {
        const other: Harp = { ...two, tuning: one.tuning };
        const note = { ...plain, hole: index + 1, over };
        for (const breath of ['blow', 'draw'] as const) {
          const [a, b] = [sounding(one, breath, note), sounding(other, breath, note)];
          if ('fault' in a) expect(b).toEqual(a);
          else expect(b).toEqual({ midi: a.midi + keyNote(other) - keyNote(one) });
        }
      }),
    );
  });
});

describe('a harp with a slide', () => {
  const solo: Harp = {
    ...C,
    tuning: present(
      TUNINGS.find(({ id }) => id === 'solo-chromatic'),
      'the tuning',
    ),
  };

  it('raises either breath a half step', () => {
    expect(sounding(solo, 'blow', { ...plain, hole: 1, slide: true })).toEqual({ midi: 61 });
    expect(sounding(solo, 'draw', { ...plain, hole: 1, slide: true })).toEqual({ midi: 63 });
  });

  it('has valved reeds, which neither bend by the two-reed rule nor overbend', () => {
    for (let hole = 1; hole <= 12; hole++) {
      expect(bendsOfHole(solo, hole)).toEqual({ bends: undefined, deepest: 0, overbends: undefined });
      expect(sounding(solo, 'draw', { ...plain, hole, bend: 1 })).toEqual({ fault: 'no-bend' });
      expect(sounding(solo, 'blow', { ...plain, hole, over: true })).toEqual({ fault: 'no-overbend' });
    }
  });

  it('bends by the two-reed rule where an author says there are no valves, the slide raising bend and overbend too', () => {
    const open: Harp = { ...solo, tuning: { ...solo.tuning, valves: false } };
    expect(sounding(open, 'draw', { ...plain, hole: 1, bend: 1 })).toEqual({ midi: 61 });
    expect(sounding(open, 'draw', { ...plain, hole: 1, bend: 1, slide: true })).toEqual({ midi: 62 });
    expect(sounding(open, 'blow', { ...plain, hole: 1, over: true, slide: true })).toEqual({ midi: 64 });
    // Hole 4 blows C and draws B: the blow reed is the higher one, and a half step leaves nothing to bend to.
    expect(bendsOfHole(open, 4)).toEqual({ bends: 'blow', deepest: 0, overbends: 'draw' });
  });
});
