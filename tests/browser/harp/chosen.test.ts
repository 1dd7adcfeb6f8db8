/** The harp a student has chosen: from the address, from what the browser keeps, or as the course has it. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import {
  type Chosen,
  choose,
  chosenName,
  differs,
  HARP_EVENT,
  onChosenElsewhere,
  readChosen,
  studentsHarp,
} from '../../../src/browser/harp/chosen.ts';
import { CONCERT_A_RANGE, EQUAL, TEMPERAMENTS } from '../../../src/instrument/temperament.ts';
import { RICHTER, TUNINGS, type Tuning } from '../../../src/instrument/tuning.ts';
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
  const { harp, tuned, concertA, temperament } = readChosen();
  const plain = { harp: harp && chosenName(harp), concertA, temperament: temperament.id };
  return tuned ? { ...plain, tuned: `${tuned.tuning.id} for ${tuned.inPlaceOf}` } : plain;
}
afterEach(() => {
  vi.unstubAllGlobals();
});

const tuningOf = (id: string): Tuning =>
  present(
    TUNINGS.find((one) => one.id === id),
    id,
  );
const MINOR = tuningOf('natural-minor');

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
  test('is all of what the address names, and not half of it and half of what is kept', () => {
    const kept = '{"harp":"A","tuning":"natural-minor","concertA":442}';
    expect(page({ search: '?harp=Bb', kept })).toEqual({ harp: 'Bb', concertA: 442, temperament: 'equal' });
    expect(page({ search: '?tuning=solo-chromatic', kept })).toEqual({
      harp: undefined,
      concertA: 442,
      temperament: 'equal',
      tuned: 'solo-chromatic for richter',
    });
    expect(page({ search: '?harp=H&tuning=odd', kept })).toMatchObject({
      harp: 'A',
      tuned: 'natural-minor for richter',
    });
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
    for (const concertA of [CONCERT_A_RANGE.from, CONCERT_A_RANGE.to])
      expect(page({ kept: JSON.stringify({ concertA }) }).concertA).toBe(concertA);
  });
  test('may have another tuning than the usual one of the course', () => {
    expect(page({ kept: '{"tuning":"natural-minor"}' })).toEqual({ ...PLAIN, tuned: 'natural-minor for richter' });
    expect(page({ search: '?harp=A&tuning=solo-chromatic', kept: '{"tuning":"natural-minor"}' })).toEqual({
      ...PLAIN,
      harp: 'A',
      tuned: 'solo-chromatic for richter',
    });
    for (const tuning of ['richter', 'no such', '__proto__', 7])
      expect(page({ kept: JSON.stringify({ tuning }) })).toEqual(PLAIN);
    const own = { id: 'own', title: 'Own', blow: [0], draw: [2] };
    const course = { tuning: 'natural-minor', tunings: JSON.stringify([own]) };
    expect(page({ course, search: '?tuning=own' })).toEqual({ ...PLAIN, tuned: 'own for natural-minor' });
    expect(page({ course, search: '?tuning=natural-minor' })).toEqual(PLAIN);
    expect(page({ course: { oneTuning: '' }, search: '?tuning=natural-minor' })).toEqual(PLAIN);
  });
  test('is that of the music as far as the student left it open', () => {
    const written = { key: { letter: 'C', alter: 0 }, register: 'standard', tuning: RICHTER } as const;
    const harp = { key: { letter: 'F', alter: 0 }, register: 'low' } as const;
    const tuned = { tuning: MINOR, inPlaceOf: 'richter' };
    expect(studentsHarp({ harp: undefined, tuned: undefined }, written)).toEqual(written);
    expect(studentsHarp({ harp, tuned: undefined }, written)).toEqual({ ...harp, tuning: RICHTER });
    expect(studentsHarp({ harp: undefined, tuned }, written)).toEqual({ ...written, tuning: MINOR });
    const raised = { ...written, tuning: tuningOf('raised-fifth-draw') };
    expect(studentsHarp({ harp, tuned }, raised)).toEqual({ ...harp, tuning: raised.tuning });
    expect(chosenName(harp)).toBe('low F');
  });
});

describe('choosing', () => {
  const JUST = present(
    TEMPERAMENTS.find(({ id }) => id === 'just'),
    'the temperament',
  );
  const LOW_F = { key: { letter: 'F', alter: 0 }, register: 'low' } as const;
  const NOTHING: Chosen = { harp: undefined, tuned: undefined, concertA: 440, temperament: EQUAL };

  /** What choosing does on a page: what is kept then, the new address if there is one, and what is announced. */
  function chosenOn(href: string, chosen: Chosen, isFull = false, dataset: Readonly<Record<string, string>> = {}) {
    const items = new Map([['reedway-harp', 'before']]);
    const replaced: unknown[] = [];
    const announced: unknown[] = [];
    vi.stubGlobal('location', { href });
    vi.stubGlobal('history', { state: 'kept', replaceState: (...all: unknown[]) => replaced.push(all.map(String)) });
    vi.stubGlobal('localStorage', {
      getItem: () => '{"tuning":"natural-minor"}',
      setItem: (key: string, value: string) => {
        if (isFull) throw new Error('no room');
        items.set(key, value);
      },
      removeItem: (key: string) => items.delete(key),
    });
    vi.stubGlobal('document', {
      documentElement: { dataset },
      dispatchEvent: ({ type, detail }: CustomEvent) => announced.push(type, detail),
    });
    choose(chosen);
    return { kept: items.get('reedway-harp'), replaced, announced };
  }

  test('is kept as far as it is not what the course has, named in the address and announced', () => {
    const tuned = { tuning: MINOR, inPlaceOf: 'richter' };
    const chosen = { harp: LOW_F, tuned, concertA: 442, temperament: JUST };
    expect(chosenOn('https://a.b/c?d=e#f', chosen)).toEqual({
      kept: '{"tuning":"natural-minor","harp":"low F","concertA":442,"temperament":"just"}',
      replaced: [['kept', '', 'https://a.b/c?d=e&harp=low+F&tuning=natural-minor#f']],
      announced: [HARP_EVENT, chosen],
    });
    expect(chosenOn('https://a.b/', { ...NOTHING, harp: LOW_F }).kept).toBe('{"harp":"low F"}');
    expect(chosenOn('https://a.b/', { ...NOTHING, concertA: 441 }).kept).toBe('{"concertA":441}');
  });
  test('nothing is forgotten, and taken out of the address', () => {
    expect(chosenOn('https://a.b/?harp=A', NOTHING)).toEqual({
      kept: undefined,
      replaced: [['kept', '', 'https://a.b/']],
      announced: [HARP_EVENT, NOTHING],
    });
  });
  test('what the address has already leaves it alone', () => {
    expect(chosenOn('https://a.b/?harp=low+F', { ...NOTHING, harp: LOW_F }).replaced).toEqual([]);
    expect(chosenOn('https://a.b/', NOTHING).replaced).toEqual([]);
  });
  test('on a page about one tuning keeps the tuning that was chosen elsewhere', () => {
    const { kept } = chosenOn('https://a.b/', { ...NOTHING, harp: LOW_F }, false, { oneTuning: '' });
    expect(kept).toBe('{"tuning":"natural-minor","harp":"low F"}');
  });
  test('is seen on this page although the browser keeps nothing', () => {
    const { kept, announced } = chosenOn('https://a.b/', { ...NOTHING, harp: LOW_F }, true);
    expect([kept, announced[0]]).toEqual(['before', HARP_EVENT]);
  });
  test('draws pages again where the harp or its tuning is not that of the course', () => {
    vi.stubGlobal('document', { documentElement: { dataset: { concertA: '442' } } });
    const ofCourse = { ...NOTHING, concertA: 442 };
    expect(differs(ofCourse)).toBe(false);
    expect(differs({ ...ofCourse, harp: LOW_F })).toBe(true);
    expect(differs({ ...ofCourse, tuned: { tuning: MINOR, inPlaceOf: 'richter' } })).toBe(true);
    expect(differs({ ...ofCourse, concertA: 440 })).toBe(true);
    expect(differs({ ...ofCourse, temperament: JUST })).toBe(true);
  });
  test('on another tab is noticed, and what else is kept is not', () => {
    const listeners: ((event: { readonly key: string | null }) => void)[] = [];
    vi.stubGlobal('addEventListener', (type: string, listener: (typeof listeners)[number]) => {
      if (type === 'storage') listeners.push(listener);
    });
    let called = 0;
    onChosenElsewhere(() => called++);
    // Everything was taken away.
    for (const key of ['reedway-harp', 'another', null]) for (const listener of listeners) listener({ key });
    expect(called).toBe(2);
  });
});
