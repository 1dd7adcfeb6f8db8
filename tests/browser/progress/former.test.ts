/** Marks follow what was renamed, whatever wrote them and when. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blockNow, type FormerIds, underNewNames } from '../../../src/browser/progress/former.ts';
import { lastPlace } from '../../../src/browser/progress/place.ts';
import { type Entry, entryOf, merge, NOTHING, readRecord, writeRecord } from '../../../src/browser/progress/record.ts';
import { cases } from '../../setup/long.ts';
import { anyEntry, browser, entry, KEY, record } from './some-progress.ts';

const FORMER: FormerIds = {
  lessons: { old: 'new', 'a/old': 'new' },
  blocks: { 'new/riff': 'new/tune', 'other/x': 'other/y' },
};

const progress = (lessons: Record<string, Entry>, blocks: Record<string, Entry> = {}) => record({ lessons, blocks });
const done = (counter: number): Entry => entry(true, counter);
const undone = (counter: number): Entry => entry(false, counter);

/** A browser’s storage with a record in it. */
function keeping(before: ReturnType<typeof progress>) {
  const { items, tab } = browser({ [KEY]: writeRecord(before) });
  const kept = () => readRecord(items.get(KEY) ?? '').progress;
  return { kept, page: (former?: FormerIds) => tab('/', former) };
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
    const set = (marks: Record<string, Entry>) => entryOf(underNewNames(progress(marks), FORMER), 'lessons', 'new');
    expect(set({ old: done(1), new: undone(2) })).toEqual(undone(2));
    expect(set({ old: done(3), new: undone(2) })).toEqual(done(3));
    expect(set({ old: undone(3), 'a/old': done(4), new: undone(2) })).toEqual(done(4));
  });

  test('are left alone where nothing was renamed', () => {
    const marks = progress({ old: done(1) });
    expect(underNewNames(marks, undefined)).toBe(marks);
    const others = progress({ other: done(1) });
    expect(underNewNames(others, FORMER)).toBe(others);
  });

  test('are those of settings, of the last place and of whatever names a block, too', () => {
    const settings = { tempo: 66, swing: 0.5, loop: true };
    const before = record({ settings: { 'old/riff': entry(settings, 1) } });
    expect(underNewNames(before, FORMER)).toEqual(record({ settings: { 'new/tune': entry(settings, 1) } }));
    const place = (value: unknown) => lastPlace(record({ place: { last: entry(value, 1) } }), FORMER);
    expect(place({ lesson: 'a/old', block: 'riff' })).toEqual({ lesson: 'new', block: 'tune' });
    expect(place({ lesson: 'other' })).toEqual({ lesson: 'other' });
    expect(place(7)).toBeUndefined();
    expect(['old/riff', 'other/x', 'x', 'other/z'].map((key) => blockNow(key, FORMER))).toEqual([
      'new/tune',
      'other/y',
      'x',
      'other/z',
    ]);
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
    const marks = fc.dictionary(key, anyEntry);
    const both = fc.record({ lessons: marks, blocks: marks }).map(record);
    fc.assert(
      fc.property(both, both, (a, b) => {
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
    older.set('lessons', 'old', false);
    older.set('blocks', 'old/riff', true);
    newer.refresh();
    expect(entryOf(newer.progress(), 'lessons', 'new')?.value).toBe(false);
    expect(entryOf(newer.progress(), 'blocks', 'new/tune')?.value).toBe(true);
    newer.set('lessons', 'new', true);
    older.refresh();
    newer.refresh();
    expect(entryOf(newer.progress(), 'lessons', 'new')?.value).toBe(true);
    expect(entryOf(kept(), 'lessons', 'other')).toEqual(done(1));
  });

  test('takes over a saved record with former names', () => {
    const store = keeping(NOTHING).page(FORMER);
    store.add(progress({ old: done(1) }, { 'a/old/riff': done(2) }));
    expect(store.progress()).toEqual(progress({ new: done(1) }, { 'new/tune': done(2) }));
  });
});
