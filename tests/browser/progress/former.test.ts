/** Marks follow what was renamed, whatever wrote them and when. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FormerIds, underNewNames } from '../../../src/browser/progress/former.ts';
import {
  type DoneMark,
  merge,
  NOTHING,
  type Progress,
  readRecord,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { openStore, type Surroundings } from '../../../src/browser/progress/store.ts';
import { cases } from '../../setup/long.ts';

const FORMER: FormerIds = {
  lessons: { old: 'new', 'a/old': 'new' },
  blocks: { 'new/riff': 'new/tune', 'other/x': 'other/y' },
};
const KEY = 'reedway-progress:/';

const progress = (lessons: Record<string, DoneMark>, blocks: Record<string, DoneMark> = {}): Progress => ({
  lessons: new Map(Object.entries(lessons)),
  blocks: new Map(Object.entries(blocks)),
});
const done = (at: number): DoneMark => ({ done: true, at });
const undone = (at: number): DoneMark => ({ done: false, at });

/** A browser’s storage with a record in it. */
function keeping(record: Progress) {
  const items = new Map([[KEY, writeRecord(record)]]);
  const storage: NonNullable<Surroundings['storage']> = {
    get length() {
      return items.size;
    },
    key: (index) => [...items.keys()][index] ?? null,
    getItem: (key) => items.get(key) ?? null,
    setItem: (key, value) => void items.set(key, value),
    removeItem: (key) => void items.delete(key),
  };
  const kept = () => readRecord(items.get(KEY) ?? '').progress;
  const page = (former?: FormerIds) => openStore('/', { storage, now: () => 100, former });
  return { kept, page };
}

describe('marks under former names', () => {
  test('are those of what is there now: of lessons, of their blocks, and of blocks that were renamed', () => {
    const before = progress(
      { old: done(1), other: done(2) },
      { 'old/riff': done(3), 'a/old/0': done(4), 'other/x': done(5), 'other/z': done(6) },
    );
    const after = progress(
      { new: done(1), other: done(2) },
      { 'new/tune': done(3), 'new/0': done(4), 'other/y': done(5), 'other/z': done(6) },
    );
    expect(underNewNames(before, FORMER)).toEqual(after);
  });

  test('count by when they were set, where there are several for one thing', () => {
    const set = (record: Record<string, DoneMark>) => underNewNames(progress(record), FORMER).lessons.get('new');
    expect(set({ old: done(1), new: undone(2) })).toEqual(undone(2));
    expect(set({ old: done(3), new: undone(2) })).toEqual(done(3));
    expect(set({ old: undone(3), 'a/old': done(4), new: undone(2) })).toEqual(done(4));
  });

  test('are left alone where nothing was renamed', () => {
    const record = progress({ old: done(1) });
    expect(underNewNames(record, undefined)).toBe(record);
  });

  test('give the same, merged before or after, and are done in one step', () => {
    const key = fc.constantFrom(
      'old',
      'new',
      'a/old',
      'other',
      'old/riff',
      'new/riff',
      'new/tune',
      'other/x',
      'other/y',
    );
    const mark = fc.record({ done: fc.boolean(), at: fc.nat(5) });
    const marks = fc.array(fc.tuple(key, mark)).map((entries) => new Map(entries));
    const record = fc.record({ lessons: marks, blocks: marks });
    fc.assert(
      fc.property(record, record, (a, b) => {
        const after = underNewNames(merge(a, b), FORMER);
        expect(merge(underNewNames(a, FORMER), underNewNames(b, FORMER))).toEqual(after);
        expect(underNewNames(after, FORMER)).toEqual(after);
      }),
      { numRuns: cases(200, 5000) },
    );
  });
});

describe('a browser that kept marks under a former name', () => {
  test('has them under the new one once a page is opened, and keeps them so', () => {
    const { kept, page } = keeping(progress({ old: done(1) }, { 'old/riff': done(2) }));
    expect(page(FORMER).progress()).toEqual(progress({ new: done(1) }, { 'new/tune': done(2) }));
    expect(kept()).toEqual(progress({ new: done(1) }, { 'new/tune': done(2) }));
  });

  test('loses nothing where an older page is open beside the new one', () => {
    const { kept, page } = keeping(progress({ old: done(1), other: done(1) }));
    const older = page();
    const newer = page(FORMER);
    older.mark('lessons', 'old', false);
    older.mark('blocks', 'old/riff', true);
    newer.refresh();
    expect(newer.progress().lessons.get('new')?.done).toBe(false);
    expect(newer.progress().blocks.get('new/tune')?.done).toBe(true);
    newer.mark('lessons', 'new', true);
    older.refresh();
    newer.refresh();
    expect(newer.progress().lessons.get('new')?.done).toBe(true);
    expect(kept().lessons.get('other')).toEqual(done(1));
  });

  test('takes over a saved record with former names', () => {
    const store = keeping(NOTHING).page(FORMER);
    store.add(progress({ old: done(1) }, { 'a/old/riff': done(2) }));
    expect(store.progress()).toEqual(progress({ new: done(1) }, { 'new/tune': done(2) }));
  });
});
