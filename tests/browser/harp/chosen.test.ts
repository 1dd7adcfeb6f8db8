/** The harp a student has chosen: from the address, from what the browser keeps, or as the course has it. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import { chosenName, onTuning, readChosen } from '../../../src/browser/harp/chosen.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { present } from '../../../src/values/checked.ts';

/** A page at an address, of a course, in a browser that has kept something. */
function page({
  search = '',
  kept = null,
  course = {},
}: {
  readonly search?: string;
  readonly kept?: string | null | (() => never);
  readonly course?: Readonly<Record<string, string>>;
}) {
  vi.stubGlobal('location', { search });
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => (typeof kept === 'function' ? kept() : key === 'reedway-harp' ? kept : null),
  });
  vi.stubGlobal('document', { documentElement: { dataset: course } });
  const { harp, concertA, temperament } = readChosen();
  return { harp: harp && chosenName(harp), concertA, temperament: temperament.id };
}
afterEach(() => {
  vi.unstubAllGlobals();
});

const PLAIN = { harp: undefined, concertA: 440, temperament: 'equal' };

describe('the chosen harp', () => {
  test('is none where nobody has chosen', () => {
    expect(page({})).toEqual(PLAIN);
  });
  test('is what the browser has kept', () => {
    expect(page({ kept: '{"harp":"low F","concertA":442,"temperament":"just"}' })).toEqual({
      harp: 'low F',
      concertA: 442,
      temperament: 'just',
    });
  });
  test('is what the address names, before what is kept', () => {
    expect(page({ search: '?harp=Bb', kept: '{"harp":"A"}' }).harp).toBe('Bb');
    expect(page({ search: '?harp=low+F' }).harp).toBe('low F');
    expect(page({ search: '?other=Bb', kept: '{"harp":"A"}' }).harp).toBe('A');
    expect(page({ search: '?harp=H', kept: '{"harp":"A"}' }).harp).toBe('A');
  });
  test('is tuned as the course is, where the student left that open', () => {
    const course = { concertA: '443', temperament: 'just' };
    expect(page({ course })).toEqual({ harp: undefined, concertA: 443, temperament: 'just' });
    expect(page({ course, kept: '{"concertA":440,"temperament":"equal"}' })).toEqual(PLAIN);
  });
  test.each([
    'words',
    'null',
    '7',
    '[]',
    '{"harp":7}',
    '{"harp":"H"}',
    '{"concertA":"440"}',
    '{"concertA":1}',
    '{"concertA":1e9}',
    '{"temperament":"odd"}',
    '{"temperament":7}',
  ])('is as if nothing were kept where %s is', (kept) => expect(page({ kept })).toEqual(PLAIN));
  test('is none in a browser that keeps nothing', () => {
    const blocked = () => {
      throw new Error('blocked');
    };
    expect(page({ kept: blocked })).toEqual(PLAIN);
  });
  test('takes no concert pitch outside of what there is, from a course neither', () => {
    expect(page({ course: { concertA: '1000' } })).toEqual(PLAIN);
    expect(page({ course: { concertA: 'high' } })).toEqual(PLAIN);
  });
  test('keeps its key and register in the tuning of a block', () => {
    const minor = present(
      TUNINGS.find(({ id }) => id === 'natural-minor'),
      'the tuning',
    );
    const harp = { key: { letter: 'F', alter: 0 }, register: 'low' } as const;
    expect(onTuning(harp, minor)).toEqual({ ...harp, tuning: minor });
    expect(chosenName(harp)).toBe('low F');
  });
});
