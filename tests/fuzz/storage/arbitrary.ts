/** Stored progress as another version, another program, a failing disk or a person may have written it, and what happens to it. */
import fc from 'fast-check';
import { mutated } from '../mutated.ts';

export const KEY = 'reedway-progress:/';

const IDS = [
  'a',
  'b',
  'blues/riffs',
  'blues',
  '0',
  '10',
  '__proto__',
  'constructor',
  'toString',
  '',
  'ünï',
  '\ud800',
  'a/0',
  'a/b/c',
];
const id = fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...IDS) }, fc.string({ unit: 'binary', maxLength: 5 }));
// Nothing is later than the last moment of a clock, so the moments right before it are left to the store's own test.
const time = fc.oneof(
  { weight: 4, arbitrary: fc.nat(3000) },
  fc.constantFrom(1.7e12, 8.64e15 - 1e6, 8.64e15 + 1, Number.MAX_SAFE_INTEGER - 1, Number.MAX_SAFE_INTEGER, 0),
);
const mark = fc.record({ done: fc.boolean(), at: time });
const marks = fc.array(fc.tuple(id, mark), { maxLength: 5 }).map((all): unknown => Object.fromEntries(all));
const oddMark = fc.oneof(
  mark,
  fc.constantFrom<unknown>(
    null,
    true,
    7,
    [],
    {},
    { done: 'yes', at: 1 },
    { done: true },
    { done: true, at: -1 },
    { done: true, at: 0.5 },
    { done: true, at: 1e300 },
  ),
);
const oddMarks = fc.oneof(
  fc.array(fc.tuple(id, oddMark), { maxLength: 5 }).map((all): unknown => Object.fromEntries(all)),
  fc.constantFrom<unknown>(null, [], 'x', 3, undefined),
);

const counter = fc.oneof(
  { weight: 4, arbitrary: fc.nat(30) },
  fc.constantFrom(2 ** 51, 2 ** 52 + 1, Number.MAX_SAFE_INTEGER),
);
const stamp = fc.tuple(counter, fc.constantFrom('', 'd', 'e', '__proto__'), time);
const value = fc.oneof(fc.boolean(), fc.jsonValue());
const entriesWith = (entry: fc.Arbitrary<unknown>) =>
  fc.array(fc.tuple(id, entry), { maxLength: 5 }).map((all): unknown => Object.fromEntries(all));
const soundEntries = entriesWith(fc.tuple(stamp, fc.boolean()).map(([set, done]) => [...set, done]));
const others = entriesWith(fc.tuple(stamp, value).map(([set, one]) => [...set, one]));
const kindsOf = (marked: fc.Arbitrary<unknown>) =>
  fc.record(
    { lessons: marked, blocks: marked, settings: others, place: others, log: others, takes: others },
    { requiredKeys: [] },
  );
const secondWith = (entries: fc.Arbitrary<unknown>) =>
  fc
    .record({ version: fc.constant(2), browser: fc.constantFrom<unknown>({ device: 'x' }, undefined, 3), entries })
    .map((record) => JSON.stringify(record));
const soundSecond = secondWith(kindsOf(soundEntries));
const damagedSecond = secondWith(
  fc.oneof(
    kindsOf(entriesWith(fc.oneof(fc.array(value, { maxLength: 5 }), value))),
    fc.constantFrom<unknown>(null, [], 7),
  ),
);

const soundFirst = fc
  .record({ version: fc.constant(1), course: fc.constantFrom('A course', undefined), lessons: marks, blocks: marks })
  .map((value) => JSON.stringify(value));
const sound = fc.oneof(soundFirst, soundSecond);
const damagedFirst = fc
  .record({ version: fc.constant(1), lessons: oddMarks, blocks: oddMarks })
  .map((value) => JSON.stringify(value));
const damaged = fc.oneof(damagedFirst, damagedSecond);
const otherVersion = fc
  .record({ version: fc.constantFrom<unknown>(0, 3, 7, -1, '1', null, 1.5, 1e300), lessons: marks })
  .map((value) => JSON.stringify(value));

const pieces = fc.constantFrom(
  '{',
  '}',
  '"',
  ',',
  ':',
  '[',
  ']',
  'true',
  'null',
  '"at":',
  '"version":1',
  '"version":2',
  '1e999',
  '\\ud800',
  '"__proto__":{}',
  '\u0000',
  ' ',
);

/** The text of a record, of any kind. */
export const recordText = fc.oneof(
  { weight: 4, arbitrary: sound },
  { weight: 3, arbitrary: damaged },
  { weight: 1, arbitrary: otherVersion },
  { weight: 3, arbitrary: mutated(fc.oneof(sound, damaged), pieces) },
  { weight: 1, arbitrary: fc.json() },
  { weight: 1, arbitrary: fc.string({ unit: 'binary' }) },
);

/** The tabs a student has open. */
export const TABS = 3;
const tab = fc.nat(TABS - 1);
const kind = fc.constantFrom('lessons' as const, 'blocks' as const);

export type Step =
  /** The student ticks a box. */
  | {
      readonly do: 'mark';
      readonly tab: number;
      readonly kind: 'lessons' | 'blocks';
      readonly id: string;
      readonly done: boolean;
    }
  /** A file is loaded. */
  | { readonly do: 'load'; readonly tab: number; readonly text: string; readonly lessons: readonly string[] }
  | { readonly do: 'refresh'; readonly tab: number }
  /** A page is opened again. */
  | { readonly do: 'open'; readonly tab: number }
  /** Another program writes over what is kept. */
  | { readonly do: 'overwrite'; readonly text: string }
  | { readonly do: 'remove-aside'; readonly tab: number }
  /** The browser has no room, or keeps nothing at all. */
  | { readonly do: 'room'; readonly room: 'enough' | 'full' | 'blocked' }
  | { readonly do: 'clock'; readonly at: number };

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ do: fc.constant('mark' as const), tab, kind, id, done: fc.boolean() }) },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant('load' as const),
      tab,
      text: recordText,
      lessons: fc.array(id, { maxLength: 4 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('refresh' as const), tab }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('open' as const), tab }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('overwrite' as const), text: recordText }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('remove-aside' as const), tab }) },
  {
    weight: 1,
    arbitrary: fc.record({
      do: fc.constant('room' as const),
      room: fc.constantFrom('enough' as const, 'enough' as const, 'full' as const, 'blocked' as const),
    }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('clock' as const), at: fc.constantFrom(0, 5, 1000, 1.7e12) }) },
);

/** What one case of the storage is. */
export interface StorageCase {
  /** What is kept at first, by key. */
  readonly items: readonly (readonly [string, string])[];
  readonly steps: readonly Step[];
}

const key = fc.constantFrom(KEY, KEY, KEY, `${KEY}:aside:5`, `${KEY}:aside:x`, 'reedway-progress:/other/', 'something');

export const storageCase: fc.Arbitrary<StorageCase> = fc.record({
  items: fc.array(fc.tuple(key, recordText), { maxLength: 4 }),
  steps: fc.array(step, { maxLength: 15 }),
});
