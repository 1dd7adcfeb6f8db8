/** Records for tests, and a browser that keeps them. */
import fc from 'fast-check';
import type { Entry, Progress } from '../../../src/browser/progress/record.ts';
import { isDone } from '../../../src/browser/progress/record.ts';
import { openStore, type Store, type Surroundings } from '../../../src/browser/progress/store.ts';

/** An entry as a device sets it. */
export const entry = (value: unknown, counter: number, device = 'd', at = 1000): Entry => ({
  counter,
  device,
  at,
  value,
});

/** A record of kinds and keys; kinds without entries are left out, as they are when a record is read. */
export const record = (kinds: Readonly<Record<string, Readonly<Record<string, Entry>>>>): Progress =>
  new Map(
    Object.entries(kinds)
      .map(([kind, entries]) => [kind, new Map(Object.entries(entries))] as const)
      .filter(([, { size }]) => size > 0),
  );

/** Lessons that are done, set one after the other. */
export const lessonsDone = (...ids: readonly string[]): Progress =>
  record({ lessons: Object.fromEntries(ids.map((id, index) => [id, entry(true, index + 1)])) });

/** Clocks may be wrong and counters equal: nothing of an entry follows from anything else in it. */
export const anyEntry: fc.Arbitrary<Entry> = fc.record({
  counter: fc.nat(4),
  device: fc.constantFrom('', 'phone', 'tablet'),
  at: fc.oneof(fc.nat(3), fc.constantFrom(1.7e12, 8.6e15)),
  value: fc.boolean(),
});

const keys = fc.constantFrom('a', 'b', 'c', '__proto__', 'constructor', 'blues/riffs', 'ünïcode');
const other = fc.oneof(fc.jsonValue(), fc.record({ tempo: fc.nat(200), swing: fc.constant(0.5), loop: fc.boolean() }));

/** A record of any device: kinds that are known, and one that is not. */
export const anyProgress: fc.Arbitrary<Progress> = fc
  .record({
    lessons: fc.dictionary(keys, anyEntry, { maxKeys: 4 }),
    blocks: fc.dictionary(keys, anyEntry, { maxKeys: 4 }),
    settings: fc.dictionary(
      keys,
      fc.tuple(anyEntry, other).map(([one, value]) => ({ ...one, value })),
      { maxKeys: 3 },
    ),
    takes: fc.dictionary(
      keys,
      fc.tuple(anyEntry, other).map(([one, value]) => ({ ...one, value })),
      { maxKeys: 3 },
    ),
  })
  .map(record);

export const KEY = 'reedway-progress:/';

/** A browser's storage, shared by the tabs opened on it; `full` refuses to take more. */
export function browser(kept: Readonly<Record<string, string>> = {}, name = 'd') {
  const items = new Map(Object.entries(kept));
  const state = { full: false, clock: 1000 };
  const storage: NonNullable<Surroundings['storage']> = {
    get length() {
      return items.size;
    },
    key: (index) => [...items.keys()][index] ?? null,
    getItem: (key) => items.get(key) ?? null,
    setItem(key, value) {
      if (state.full) throw new Error('no room');
      items.set(key, value);
    },
    removeItem: (key) => void items.delete(key),
  };
  let devices = 0;
  const newDevice = (): string => `${name}${++devices}`;
  const tab = (base = '/', former?: Surroundings['former']): Store =>
    openStore(base, { storage, now: () => state.clock++, newDevice, former });
  return { items, state, tab };
}

/** The lessons that are done, as a page knows it. */
export const lessonsOf = (store: Store): string[] =>
  [...(store.progress().get('lessons')?.keys() ?? [])].filter((id) => isDone(store.progress(), 'lessons', id)).sort();
