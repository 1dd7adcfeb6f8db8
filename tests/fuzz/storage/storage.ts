/** The target of the stored progress: pages of one browser over whatever is kept there. */
import { nextLesson, stateOf } from '../../../src/browser/progress/next-lesson.ts';
import {
  type DoneMark,
  merge,
  PROGRESS_KINDS,
  type Progress,
  type ProgressKind,
  partOf,
  readRecord,
  sameProgress,
  sizeOf,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { openStore, type Store, type Surroundings } from '../../../src/browser/progress/store.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { must, type Target } from '../target.ts';
import { KEY, type Step, type StorageCase, storageCase, TABS } from './arbitrary.ts';

/** The last moment a clock can show: marks set then or later count as set at no known time. */
const LAST_MOMENT = 8.64e15;

/** The valid marks of a record, read without the module that is tested. */
function validMarks(text: string): { readonly kind: ProgressKind; readonly id: string; readonly mark: DoneMark }[] {
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
  if (field(value, 'version') !== 1) return [];
  return PROGRESS_KINDS.flatMap((kind) => {
    const all = field(value, kind);
    if (typeof all !== 'object' || all === null || Array.isArray(all)) return [];
    return Object.keys(all).flatMap((id) => {
      const mark = field(all, id);
      const [done, at] = [field(mark, 'done'), field(mark, 'at')];
      if (typeof done !== 'boolean' || typeof at !== 'number' || !Number.isSafeInteger(at) || at < 0) return [];
      return [{ kind, id, mark: { done, at: at >= LAST_MOMENT ? 0 : at } }];
    });
  });
}

/** Whether a record holds what a mark says, or something said later. */
function holds(progress: Progress, kind: ProgressKind, id: string, mark: DoneMark): boolean {
  const known = progress[kind].get(id);
  return known !== undefined && (known.at > mark.at || (known.at === mark.at && (known.done || !mark.done)));
}

function checkRecord(text: string): void {
  const { kind, progress } = readRecord(text);
  const valid = validMarks(text);
  must(sizeOf(progress) === valid.length, 'a record is read with its valid marks and no others', () => [
    text,
    [...progress.lessons],
    [...progress.blocks],
  ]);
  for (const { kind: of, id, mark } of valid) {
    const read = progress[of].get(id);
    must(read?.done === mark.done && read.at === mark.at, 'a valid mark is read as it is', () => [id, mark, read]);
  }
  must(kind === 'sound' || kind === 'damaged' || kind === 'version', 'a reading has a kind', () => kind);
  const written = readRecord(writeRecord(progress, 'A course'));
  must(written.kind === 'sound' && sameProgress(written.progress, progress), 'what is written reads back', () => text);
  must(sameProgress(merge(progress, progress), progress), 'a record merged with itself is itself', () => text);
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
  return { state, tab: (): Store => openStore('/', { storage, now: () => state.clock++ }) };
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
        store.mark(step.kind, step.id, step.done);
        must(store.progress()[step.kind].get(step.id)?.done === step.done, 'a mark is as it was set last', () => step);
        const fresh = state.room === 'enough' ? tab().progress()[step.kind].get(step.id) : undefined;
        if (state.room === 'enough')
          must(fresh?.done === step.done, 'a mark is there for the next page', () => [step, fresh]);
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
        for (const kind of PROGRESS_KINDS)
          for (const [id, mark] of part[kind])
            must(holds(store.progress(), kind, id, mark), 'what a file says is taken over', () => [id, mark]);
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
      for (const kind of PROGRESS_KINDS)
        for (const [id, mark] of before[place]?.[kind] ?? [])
          must(holds(store.progress(), kind, id, mark), 'a page forgets no mark', () => [step, id, mark]);
    }
    const now = items.get(KEY);
    if (were !== undefined && step.do !== 'overwrite')
      for (const { kind, id, mark } of validMarks(were))
        must(holds(readRecord(now ?? '').progress, kind, id, mark), 'no valid mark is lost from what is kept', () => [
          step,
          id,
          mark,
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
      must(sameProgress(store.progress(), fresh), 'all pages agree once they look', () => [
        [...store.progress().lessons],
        [...fresh.lessons],
      ]);
  }
  const progress = itemAt(tabs, 0).progress();
  const lessons = [...progress.lessons.keys(), 'new'].map((id, index, all) => ({
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
