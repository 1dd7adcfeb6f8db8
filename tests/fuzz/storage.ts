/** A student's progress in storage that others have written to, that is full, blocked or shared. */
import fc from 'fast-check';
import { merge, readRecord, sameProgress, writeRecord } from '../../src/browser/progress/record.ts';
import { openStore, type Surroundings } from '../../src/browser/progress/store.ts';
import { demand, type Target } from './target.ts';

const KEY = 'reedway-progress:course';

/** What is in the storage before, and what happens. */
interface Case {
  readonly kept: Readonly<Record<string, string>>;
  readonly acts: readonly Act[];
  /** The times the clock shows, one after another. */
  readonly clock: readonly number[];
}

type Act =
  | { readonly do: 'mark'; readonly kind: 'lessons' | 'blocks'; readonly key: string; readonly done: boolean }
  | { readonly do: 'other tab'; readonly text: string }
  | { readonly do: 'load'; readonly text: string }
  | { readonly do: 'full' | 'blocked' | 'room again' | 'clear' | 'refresh' | 'reopen' };

const key = fc.oneof(
  fc.constantFrom('a', 'a/b', '__proto__', 'constructor', 'toString', '', 'hasOwnProperty', '\ud834', '🎵'),
  fc.string({ unit: 'binary', maxLength: 5 }),
);
const at = fc.oneof(fc.nat(20), fc.constantFrom(0, 8.64e15, 8.64e15 + 1, 2 ** 53 - 1, -1, 0.5, 1e308));
const mark = fc.oneof(
  { weight: 4, arbitrary: fc.record({ done: fc.boolean(), at }) },
  fc.constantFrom(null, 1, 'x', [], {}, { done: 1, at: 1 }, { done: true }, { done: true, at: 'x' }),
);
const marks = fc.oneof(
  {
    weight: 5,
    arbitrary: fc
      .array(fc.tuple(key, mark), { maxLength: 5 })
      .map((all) => `{${all.map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`).join()}}`),
  },
  fc.constantFrom('[]', 'null', '3', '{}'),
);
const record = fc
  .tuple(fc.constantFrom('1', '1', '1', '1', '2', '"1"', 'null', '1e400', '-1'), marks, marks)
  .map(([version, lessons, blocks]) => `{"version":${version},"lessons":${lessons},"blocks":${blocks}}`);
const text = fc.oneof(
  { weight: 6, arbitrary: record },
  fc.tuple(record, fc.nat()).map(([whole, cut]) => whole.slice(0, cut % (whole.length + 1))),
  fc.string(),
  fc.constantFrom('', 'null', '[]', '{}', '{"__proto__":{"version":1}}'),
);

const act: fc.Arbitrary<Act> = fc.oneof(
  fc.record({ do: fc.constant('mark' as const), kind: fc.constantFrom('lessons', 'blocks'), key, done: fc.boolean() }),
  fc.record({ do: fc.constantFrom('other tab', 'load'), text }),
  fc.record({ do: fc.constantFrom('full', 'blocked', 'room again', 'clear', 'refresh', 'reopen') }),
);

/** A browser's storage that fails on demand. */
function storageOf(kept: Readonly<Record<string, string>>): {
  readonly map: Map<string, string>;
  readonly storage: Surroundings['storage'];
  fail(how: 'full' | 'blocked' | undefined): void;
} {
  const map = new Map(Object.entries(kept));
  let failing: 'full' | 'blocked' | undefined;
  const touch = (): void => {
    if (failing === 'blocked') throw new DOMException('blocked', 'SecurityError');
  };
  return {
    map,
    fail: (how) => {
      failing = how;
    },
    storage: {
      getItem(name) {
        touch();
        return map.get(name) ?? null;
      },
      setItem(name, value) {
        touch();
        if (failing === 'full') throw new DOMException('full', 'QuotaExceededError');
        map.set(name, String(value));
      },
      removeItem(name) {
        touch();
        map.delete(name);
      },
      key(index) {
        touch();
        return [...map.keys()][index] ?? null;
      },
      get length() {
        touch();
        return map.size;
      },
    },
  };
}

export const storage: Target<Case> = {
  name: 'storage',
  patience: 30,
  batch: 2000,
  cases: fc.record({
    kept: fc.oneof(
      text.map((value): Readonly<Record<string, string>> => ({ [KEY]: value })),
      fc.constant({}),
      text.map((value): Readonly<Record<string, string>> => ({ [KEY]: value, [`${KEY}:aside:1`]: 'old', other: 'x' })),
    ),
    acts: fc.array(act, { maxLength: 12 }),
    clock: fc.array(fc.nat(30), { minLength: 1, maxLength: 5 }),
  }),
  check({ kept, acts, clock }) {
    const { map, storage: browser, fail } = storageOf(kept);
    let ticks = 0;
    const now = (): number => clock[ticks++ % clock.length] ?? 0;
    let store = openStore('course', { storage: browser, now });
    /** Texts that could not be read are somewhere, as long as the storage took them. */
    const unread = new Set<string>();
    const noteUnread = (value: string | undefined): void => {
      if (value !== undefined && readRecord(value).kind !== 'sound') unread.add(value);
    };
    let failed = false;
    noteUnread(kept[KEY]);
    for (const one of acts) {
      const before = store.progress();
      switch (one.do) {
        case 'mark':
          store.mark(one.kind, one.key, one.done);
          demand(store.progress()[one.kind].get(one.key)?.done === one.done, 'a mark was not made');
          break;
        case 'other tab':
          if (failed) break;
          map.set(KEY, one.text);
          noteUnread(one.text);
          store.refresh();
          break;
        case 'load':
          store.add(readRecord(one.text).progress);
          break;
        case 'full':
        case 'blocked':
          fail(one.do);
          failed = true;
          break;
        case 'room again':
          fail(undefined);
          failed = false;
          store.refresh();
          break;
        case 'clear':
          if (failed) break;
          map.clear();
          unread.clear();
          store.refresh();
          break;
        case 'refresh':
          store.refresh();
          break;
        case 'reopen':
          if (failed) break;
          store = openStore('course', { storage: browser, now });
          break;
      }
      const after = store.progress();
      if (one.do !== 'reopen')
        demand(sameProgress(merge(before, after), after) || one.do === 'mark', 'a mark was lost');
      if (!failed) {
        demand(
          store.trouble() === undefined ||
            one.do === 'refresh' ||
            one.do === 'reopen' ||
            one.do === 'load' ||
            one.do === 'mark',
          'trouble that is over is reported',
        );
        const texts = new Set(map.values());
        demand(
          [...unread].every((value) => texts.has(value)),
          'a record that could not be read is gone',
        );
        const reading = readRecord(map.get(KEY) ?? writeRecord(after));
        if (reading.kind === 'sound' && (one.do === 'mark' || one.do === 'other tab'))
          demand(sameProgress(reading.progress, after), 'what is kept is not what the page shows');
      }
      const written = readRecord(writeRecord(after, 'A course'));
      demand(written.kind === 'sound' && sameProgress(written.progress, after), 'a saved file reads back otherwise');
    }
  },
};
