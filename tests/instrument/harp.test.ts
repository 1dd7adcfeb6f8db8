import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { harpName, keyNote, namedOnHarp, readHarp } from '../../src/instrument/harp.ts';
import { plainName } from '../../src/instrument/pitch.ts';
import { RICHTER, TUNINGS } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';
import { someHarp } from './some-harp.ts';

const C = present(readHarp('C', RICHTER), 'the harp');

describe('readHarp', () => {
  it.each(['A', 'Bb', 'F#', 'low F', 'high G'])('reads %s and names it so again', (name) => {
    expect(harpName(present(readHarp(name, RICHTER), 'the harp'))).toBe(name);
  });

  it.each(['', 'H', 'low', 'lower F', 'Fb', 'E#', 'B#', 'low low F', 'C4'])('refuses “%s”', (name) => {
    expect(readHarp(name, RICHTER)).toBeUndefined();
  });
});

describe('the names on a harp', () => {
  it('are those of its key, in every key and register', () => {
    fc.assert(
      fc.property(someHarp(), (harp) => {
        expect(plainName(namedOnHarp(harp, keyNote(harp)))).toBe(plainName(harp.key));
        expect(namedOnHarp(harp, keyNote(harp) + 7).midi).toBe(keyNote(harp) + 7);
      }),
    );
  });

  it('write a reed on the raised fourth with a sharp and a bend there with a flat', () => {
    const raised = present(
      TUNINGS.find(({ id }) => id === 'raised-fifth-draw'),
      'the tuning',
    );
    expect(plainName(namedOnHarp({ ...C, tuning: raised }, 78))).toBe('F#');
    expect(plainName(namedOnHarp(C, 78))).toBe('Gb');
  });

  it.each(TUNINGS.map(({ id }) => id))('are twelve different ones in %s', (id) => {
    const tuning = present(
      TUNINGS.find((row) => row.id === id),
      'the tuning',
    );
    const names = Array.from({ length: 12 }, (_, index) => plainName(namedOnHarp({ ...C, tuning }, 60 + index)));
    expect(new Set(names).size).toBe(12);
  });
});
