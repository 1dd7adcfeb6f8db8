/** Harps and tunings for property tests. */
import fc from 'fast-check';
import type { Harp } from '../../src/instrument/harp.ts';
import { readPitchClass } from '../../src/instrument/pitch.ts';
import { TUNINGS, type Tuning } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';

export const KEYS = ['G', 'Ab', 'A', 'Bb', 'B', 'C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'Gb', 'C#'].map((name) =>
  present(readPitchClass(name), 'the pitch class'),
);

/** A tuning of one's own: rows that rise, each draw reed within an octave of its blow reed. */
const ownTuning = (): fc.Arbitrary<Tuning> =>
  fc
    .tuple(
      fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: -4, max: 5 })), {
        minLength: 4,
        maxLength: 12,
      }),
      fc.boolean(),
      fc.boolean(),
    )
    .map(([steps, slide, valves]) => {
      let at = 0;
      const blow = steps.map(([step], index) => {
        at += index === 0 ? 0 : step;
        return at;
      });
      const draw = blow.map((reed, index) => reed + (steps[index]?.[1] ?? 0));
      return {
        id: 'own',
        title: 'Own',
        blow,
        draw,
        ...(slide ? { slide: 1 } : {}),
        ...(valves ? { valves: true } : {}),
      };
    });

export const someTuning = (): fc.Arbitrary<Tuning> => fc.oneof(fc.constantFrom<Tuning>(...TUNINGS), ownTuning());

export const someHarp = (): fc.Arbitrary<Harp> =>
  fc.record({
    key: fc.constantFrom(...KEYS),
    register: fc.constantFrom('low', 'standard', 'high'),
    tuning: someTuning(),
  });
