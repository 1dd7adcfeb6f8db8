/** The target of the stored progress: pages of one browser over whatever is kept there. */
import { nextLesson, stateOf } from '../../../src/browser/progress/next-lesson.ts';
import { partOf, sizeOf } from '../../../src/browser/progress/part-of.ts';
import {
  type Entry,
  isDone,
  isLater,
  merge,
  type Progress,
  readRecord,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { openStore, type Store, type Surroundings } from '../../../src/browser/progress/store.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { must, type Target } from '../target.ts';
import { KEY, type Step, type StorageCase, storageCase, TABS } from './arbitrary.ts';

/** The last moment a clock can show: marks set then or later count as set at no known time. */
const LAST_MOMENT = 8.64e15;
/** The same of counters. */
const LAST_COUNTER = 2 ** 52;

interface Valid {
  readonly kind: string;
  readonly id: string;
  readonly entry: Entry;
}

/** The valid entries of a record, read without the module that is tested. */
function validEntries(text: string): Valid[] {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return [];
  }
  const field = (of: unknown, name: string): unknown =>
    typeof of === 'object' && of !== null && !Array.isArray(of) && Object.hasOwn(of, name)
      ? Reflect.get(of, name)
      : undefined;
  const version = field(value, 'version');
  const entries = version === 2 ? field(value, 'entries') : value;
  const names = (of: unknown): readonly string[] =>
    typeof of === 'object' && of !== null && !Array.isArray(of) ? Object.keys(of) : [];
  const isCount = (one: unknown): one is number => Number.isSafeInteger(one) && Number(one) >= 0;
  const isMark = (kind: string): boolean => kind === 'lessons' || kind === 'blocks';
  if (version !== 1 && version !== 2) return [];
  return names(entries)
    .filter((kind) => version === 2 || isMark(kind))
    .flatMap((kind) =>
      names(field(entries, kind)).flatMap((id): Valid[] => {
        const one = field(field(entries, kind), id);
        const parts = Array.isArray(one) ? (one as unknown[]) : [];
        const [counter, device, at, set] =
          version === 1 ? [0, '', field(one, 'at'), field(one, 'done')] : parts.length === 4 ? parts : [];
        if (!isCount(counter) || typeof device !== 'string' || !isCount(at)) return [];
        if (isMark(kind) && typeof set !== 'boolean') return [];
        const entry: Entry = {
          counter: counter > LAST_COUNTER ? 0 : counter,
          device,
          at: at >= LAST_MOMENT ? 0 : at,
          value: set,
        };
        return [{ kind, id, entry }];
      }),
    );
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Whether a record holds an entry, or something set later. */
function holds(progress: Progress, { kind, id, entry }: Valid): boolean {
  const known = progress.get(kind)?.get(id);
  return known !== undefined && !isLater(entry, known);
}

const entriesIn = (progress: Progress): Valid[] =>
  [...progress].flatMap(([kind, entries]) => [...entries].map(([id, entry]) => ({ kind, id, entry })));

function checkRecord(text: string): void {
  const { kind, progress } = readRecord(text);
  const valid = validEntries(text);
  must(sizeOf(progress) === valid.length, 'a record is read with its valid entries and no others', () => [
    text,
    entriesIn(progress),
  ]);
  for (const { kind: of, id, entry } of valid) {
    const read = progress.get(of)?.get(id);
    must(same(read, entry), 'a valid entry is read as it is', () => [id, entry, read]);
  }
  must(kind === 'sound' || kind === 'damaged' || kind === 'version', 'a reading has a kind', () => kind);
  const written = readRecord(writeRecord(progress, { course: 'A course' }));
  must(
    written.kind === 'sound' && writeRecord(written.progress) === writeRecord(progress),
    'what is written reads back',
    () => text,
  );
  must(merge(progress, written.progress) === progress, 'a record merged with itself is itself', () => text);
  const half = partOf(progress, new Set(['a', 'blues']));
  must(
    sizeOf(half.part) + half.left === sizeOf(progress),
    'a record is cut into what is of the course and the rest',
    () => text,
  );
}

/** The browser: its items, its clock, and whether it has room. */
function browser(items: Map<string, string>) {
  const state: { room: 'enough' | 'full' | 'blocked'; clock: number } = { room: 'enough', clock: 1000 };
  const open = (): void => {
    if (state.room === 'blocked') throw new DOMException('denied', 'SecurityError');
  };
  const storage: NonNullable<Surroundings['storage']> = {
    get length() {
      open();
      return items.size;
    },
    key: (index) => {
      open();
      return [...items.keys()][index] ?? null;
    },
    getItem: (key) => {
      open();
      return items.get(key) ?? null;
    },
    setItem: (key, value) => {
      open();
      if (state.room === 'full') throw new DOMException('full', 'QuotaExceededError');
      items.set(key, value);
    },
    removeItem: (key) => {
      open();
      items.delete(key);
    },
  };
  let devices = 0;
  const newDevice = (): string => `device-${++devices}`;
  return { state, tab: (): Store => openStore('/', { storage, now: () => state.clock++, newDevice }) };
}

function check({ items: kept, steps }: StorageCase): void {
  const items = new Map(kept);
  const { state, tab } = browser(items);
  const others = [...items].filter(([key]) => key !== KEY);
  /** Texts that are no sound record, each of which has to be somewhere until the student deletes it. */
  const unreadable = new Set<string>();
  const external = (text: string): void => {
    checkRecord(text);
    if (readRecord(text).kind !== 'sound') unreadable.add(text);
  };
  for (const [key, text] of items) if (key === KEY) external(text);
  const tabs = Array.from({ length: TABS }, tab);

  const act = (step: Step): void => {
    switch (step.do) {
      case 'mark': {
        const store = itemAt(tabs, step.tab);
        store.set(step.kind, step.id, step.done);
        must(isDone(store.progress(), step.kind, step.id) === step.done, 'a mark is as it was set last', () => step);
        if (state.room === 'enough')
          must(
            isDone(tab().progress(), step.kind, step.id) === step.done,
            'a mark is there for the next page',
            () => step,
          );
        must(
          state.room === 'enough' || store.trouble() !== undefined,
          'a mark that is not kept is reported',
          () => state.room,
        );
        return;
      }
      case 'load': {
        external(step.text);
        unreadable.delete(step.text);
        const { part } = partOf(readRecord(step.text).progress, new Set(step.lessons));
        const store = itemAt(tabs, step.tab);
        store.add(part);
        for (const one of entriesIn(part))
          must(holds(store.progress(), one), 'what a file says is taken over', () => one);
        return;
      }
      case 'refresh':
        itemAt(tabs, step.tab).refresh();
        must(
          state.room !== 'enough' || itemAt(tabs, step.tab).trouble() !== 'blocked',
          'trouble that is over is reported no longer',
        );
        return;
      case 'open':
        tabs[step.tab] = tab();
        return;
      case 'overwrite': {
        if (state.room !== 'enough') return;
        // What is written over by others before any page has seen it cannot be kept.
        const before = items.get(KEY);
        if (before !== undefined) unreadable.delete(before);
        items.set(KEY, step.text);
        external(step.text);
        return;
      }
      case 'remove-aside': {
        const store = itemAt(tabs, step.tab);
        const [aside] = store.asides();
        if (!aside || state.room === 'blocked') return;
        store.removeAside(aside.key);
        unreadable.delete(aside.text);
        must(
          store.asides().every(({ key }) => key !== aside.key),
          'what the student deletes is gone',
          () => aside,
        );
        return;
      }
      case 'room':
        state.room = step.room;
        return;
      case 'clock':
        state.clock = step.at;
    }
  };

  for (const step of steps) {
    const before = tabs.map((store) => store.progress());
    const were = items.get(KEY);
    act(step);
    for (const [place, store] of tabs.entries()) {
      if (step.do === 'open' && step.tab === place) continue;
      for (const one of entriesIn(before[place] ?? new Map()))
        must(holds(store.progress(), one), 'a page forgets nothing', () => [step, one]);
    }
    const now = items.get(KEY);
    if (were !== undefined && step.do !== 'overwrite')
      for (const one of validEntries(were))
        must(holds(readRecord(now ?? '').progress, one), 'no valid entry is lost from what is kept', () => [
          step,
          one,
          now,
        ]);
    const everywhere = new Set(items.values());
    for (const text of unreadable)
      must(everywhere.has(text), 'what cannot be read is kept as it was', () => [step, text]);
  }
  checkEnd(tabs, state.room === 'enough' ? tab : undefined);
  for (const [key, text] of others)
    if (!key.startsWith(`${KEY}:aside:`))
      must(items.get(key) === text, 'what belongs to others is left alone', () => key);
}

/** At the end the pages agree, and what is next follows. */
function checkEnd(tabs: readonly Store[], tab: (() => Store) | undefined): void {
  if (tab) {
    for (const store of [...tabs, ...tabs]) store.refresh();
    const fresh = tab().progress();
    for (const store of tabs)
      must(writeRecord(store.progress()) === writeRecord(fresh), 'all pages agree once they look', () => [
        entriesIn(store.progress()),
        entriesIn(fresh),
      ]);
  }
  const progress = itemAt(tabs, 0).progress();
  const lessons = [...(progress.get('lessons')?.keys() ?? []), 'new'].map((id, index, all) => ({
    id,
    needs: all.slice(0, index).slice(-2),
  }));
  const next = nextLesson(lessons, progress);
  must(next === undefined || stateOf(next, progress) === 'ready', 'the lesson that comes next is ready', () => next);
}

export const storage: Target<StorageCase> = {
  name: 'storage',
  cases: storageCase,
  check,
  limit: 3,
  batch: 500,
  pure: true,
};
