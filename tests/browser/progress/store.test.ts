import { describe, expect, it } from 'vitest';
import { takeAsidesOver } from '../../../src/browser/progress/asides.ts';
import { entryOf, isDone, merge, readRecord, writeRecord } from '../../../src/browser/progress/record.ts';
import { openStore, type Store, type Surroundings } from '../../../src/browser/progress/store.ts';
import { browser, entry, KEY, lessonsOf as lessons, record } from './some-progress.ts';

describe('progress in the browser', () => {
  it('is there again when the browser is', () => {
    const { tab } = browser();
    const before = tab();
    before.set('lessons', 'a', true);
    before.set('blocks', 'a/0', true);
    before.set('lessons', 'b', true);
    before.set('lessons', 'b', false);
    const after = tab();
    expect(lessons(after)).toEqual(['a']);
    expect(isDone(after.progress(), 'blocks', 'a/0')).toBe(true);
  });

  it('is not overwritten by another tab that has not seen it', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    one.set('lessons', 'a', true);
    other.set('lessons', 'b', true);
    one.set('lessons', 'c', true);
    other.set('lessons', 'a', false);
    for (const store of [one, other, tab()]) {
      store.refresh();
      expect(lessons(store)).toEqual(['b', 'c']);
    }
  });

  it('notifies a page of what another tab has marked, once it looks', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    let reported = 0;
    other.onChange(() => reported++);
    one.set('lessons', 'a', true);
    other.refresh();
    other.refresh();
    expect(reported).toBe(1);
    expect(lessons(other)).toEqual(['a']);
  });

  it('puts a damaged record aside as it was, keeps what is sound of it, and continues', () => {
    const damaged = '{"version":1,"lessons":{"a":{"done":true,"at":1},"b":7},"blocks":{}}';
    const { items, tab } = browser({ [KEY]: damaged });
    const store = tab();
    expect(lessons(store)).toEqual(['a']);
    expect(store.asides().map(({ text }) => text)).toEqual([damaged]);
    store.set('lessons', 'c', true);
    expect(lessons(tab())).toEqual(['a', 'c']);
    expect(tab().asides()).toHaveLength(1);
    store.removeAside(store.asides()[0]?.key ?? '');
    expect(store.asides()).toEqual([]);
    expect(tab().asides()).toEqual([]);
    expect([...items.keys()]).toEqual([KEY]);
  });

  it('puts aside a second damaged record of the same moment beside the first', () => {
    const { items, state, tab } = browser({ [KEY]: 'one' });
    const store = tab();
    state.clock = 1000;
    items.set(KEY, 'two');
    store.refresh();
    expect(
      store
        .asides()
        .map(({ text }) => text)
        .sort(),
    ).toEqual(['one', 'two']);
  });

  it('puts a record of another version aside, whatever is in it', () => {
    for (const other of ['{"version":7,"done":["a"]}', '{"version":0}', 'not JSON at all', '']) {
      const { tab } = browser({ [KEY]: other });
      expect(lessons(tab())).toEqual([]);
      tab().set('lessons', 'a', true);
      expect(
        tab()
          .asides()
          .map(({ text }) => text),
      ).toEqual([other]);
      expect(lessons(tab())).toEqual(['a']);
    }
  });

  it('never writes over what it could not put aside', () => {
    const { items, state, tab } = browser({ [KEY]: 'damaged' });
    state.full = true;
    const store = tab();
    store.set('lessons', 'a', true);
    expect(lessons(store)).toEqual(['a']);
    expect(store.trouble()).toBe('full');
    expect(items.get(KEY)).toBe('damaged');
  });

  it('lasts as long as the page where the browser keeps nothing', () => {
    const store = openStore('/', { storage: undefined, now: () => 1, newDevice: () => 'd' });
    store.set('lessons', 'a', true);
    expect(lessons(store)).toEqual(['a']);
    expect(store.trouble()).toBe('blocked');
  });

  it('says when there is no room, and no longer once there is, and then keeps what was marked before', () => {
    const { state, tab } = browser();
    const store = tab();
    expect(store.trouble()).toBeUndefined();
    state.full = true;
    store.set('lessons', 'a', true);
    expect(store.trouble()).toBe('full');
    expect(lessons(tab())).toEqual([]);
    state.full = false;
    store.set('lessons', 'b', true);
    expect(store.trouble()).toBeUndefined();
    expect(lessons(tab())).toEqual(['a', 'b']);
  });

  it.each([Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER - 1, 8.64e15 + 1, 8.64e15])(
    'can be changed though its time is at the limit of what is read: %d',
    (at) => {
      const { items, tab } = browser({ [KEY]: `{"version":1,"lessons":{"a":{"done":true,"at":${at}}},"blocks":{}}` });
      expect(lessons(tab())).toEqual(['a']);
      for (const done of [false, true, false]) {
        tab().set('lessons', 'a', done);
        expect(lessons(tab())).toEqual(done ? ['a'] : []);
      }
      expect(tab().asides()).toEqual([]);
      expect([...items.keys()]).toEqual([KEY]);
    },
  );

  it('takes over from a file what was said later there, and nothing older', () => {
    const { tab } = browser();
    const store = tab();
    store.set('lessons', 'a', true);
    store.add(record({ lessons: { a: entry(false, 0), b: entry(true, 0) } }));
    expect(lessons(store)).toEqual(['a', 'b']);
    expect(lessons(tab())).toEqual(['a', 'b']);
  });

  it('takes a new word over an old one even where the clock was put back', () => {
    const { items, state, tab } = browser();
    items.set(KEY, writeRecord(record({ lessons: { a: entry(true, 7, 'z', 9_000_000) } })));
    state.clock = 5;
    const store = tab();
    store.set('lessons', 'a', false);
    expect(lessons(tab())).toEqual([]);
  });

  it('sets a mark over one that another tab took from a clock ahead', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    one.add(record({ lessons: { a: entry(true, 7, 'z', 9_000_000) } }));
    other.set('lessons', 'a', false);
    for (const store of [one, other, tab()]) {
      store.refresh();
      expect(lessons(store)).toEqual([]);
    }
  });

  describe('that the browser refuses', () => {
    const refusing = (name: string, parts: Partial<NonNullable<Surroundings['storage']>>): Store => {
      const refuse = (): never => {
        throw Object.assign(new Error('refused'), { name });
      };
      const nothing = { length: 0, key: () => null, getItem: () => null, setItem: refuse, removeItem: () => {} };
      return openStore('/', { storage: { ...nothing, ...parts }, now: () => 1, newDevice: () => 'd' });
    };
    const never = (): never => {
      throw new Error('blocked');
    };
    it('to read lasts as long as the page', () => {
      const store = refusing('Error', { getItem: never, setItem: () => {} });
      expect(store.trouble()).toBe('blocked');
      store.refresh();
      expect(store.trouble()).toBe('blocked');
      store.set('lessons', 'a', true);
      expect(lessons(store)).toEqual(['a']);
    });
    it('to list has nothing put aside', () => {
      const store = refusing('Error', { key: never, length: 1 });
      expect(store.asides()).toEqual([]);
      expect(store.trouble()).toBe('blocked');
    });
    it('to write is blocked by its settings, or full', () => {
      for (const [name, trouble] of [
        ['SecurityError', 'blocked'],
        ['QuotaExceededError', 'full'],
      ] as const) {
        const store = refusing(name, {});
        expect(store.trouble()).toBeUndefined();
        store.set('lessons', 'a', true);
        expect(store.trouble(), name).toBe(trouble);
        expect(lessons(store)).toEqual(['a']);
      }
    });
  });

  it('is written as its sound part once the damaged record is put aside, and nothing is put aside twice', () => {
    const damaged = '{"version":1,"lessons":{"a":{"done":true,"at":1},"b":7},"blocks":{}}';
    const { items, tab } = browser({ [KEY]: damaged, [`${KEY}:aside:5`]: damaged });
    const store = tab();
    expect(store.asides()).toEqual([{ key: `${KEY}:aside:5`, text: damaged }]);
    expect(readRecord(items.get(KEY) ?? '')).toMatchObject({ kind: 'sound', version: 2 });
    items.set(KEY, 'another');
    store.refresh();
    expect(store.asides().map(({ text }) => text)).toEqual(['another', damaged]);
  });

  it('is written only where something has changed, and nothing is announced where it has not', () => {
    const { items, tab } = browser();
    const store = tab();
    expect([...items.keys()]).toEqual([]);
    let calls = 0;
    store.onChange(() => calls++);
    store.set('blocks', 'a/0', true);
    store.refresh();
    store.add(new Map());
    expect(calls).toBe(1);
    expect([...items.keys()]).toEqual([KEY]);
  });

  it('has nothing removed but what was put aside, and says when that is', () => {
    const { items, tab } = browser({ [`${KEY}:aside:5`]: 'odd', another: 'kept' });
    const store = tab();
    let calls = 0;
    store.onChange(() => calls++);
    store.removeAside('another');
    expect(items.get('another')).toBe('kept');
    store.removeAside(`${KEY}:aside:5`);
    expect([...items.keys()]).toEqual(['another']);
    expect(calls).toBe(2);
  });

  it('of version 1 is taken over, and kept as one of version 2 once something is set', () => {
    const text =
      '{"version":1,"lessons":{"a":{"done":true,"at":1},"b":{"done":true,"at":9}},"blocks":{"a/0":{"done":true,"at":2}}}';
    const { items, tab } = browser({ [KEY]: text });
    const store = tab();
    expect(lessons(store)).toEqual(['a', 'b']);
    store.set('lessons', 'b', false);
    expect(readRecord(items.get(KEY) ?? '')).toMatchObject({ kind: 'sound', version: 2 });
    expect(lessons(tab())).toEqual(['a']);
    expect(isDone(tab().progress(), 'blocks', 'a/0')).toBe(true);
    expect(tab().asides()).toEqual([]);
    // A file of version 1 that was saved before brings nothing back.
    store.add(readRecord(text).progress);
    expect(lessons(store)).toEqual(['a']);
  });

  it('takes over what an older version put aside and this one can read, and leaves what it cannot', () => {
    const newer = writeRecord(record({ lessons: { b: entry(true, 3) }, takes: { x: entry([1], 4) } }));
    const { items, state, tab } = browser({
      [KEY]: '{"version":1,"lessons":{"a":{"done":true,"at":1}},"blocks":{}}',
      [`${KEY}:aside:5`]: newer,
      [`${KEY}:aside:6`]: 'odd',
    });
    const store = tab();
    state.full = true;
    takeAsidesOver(store);
    expect(store.asides()).toHaveLength(2);
    state.full = false;
    takeAsidesOver(store);
    expect(store.asides()).toEqual([{ key: `${KEY}:aside:6`, text: 'odd' }]);
    expect(lessons(tab())).toEqual(['a', 'b']);
    expect(items.get(KEY)).toContain('"takes":{"x":[4,"d",1000,[1]]}');
  });

  it('has one device in all tabs, and a counter above all that it knows', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    one.set('lessons', 'a', true);
    other.set('lessons', 'b', true);
    one.add(record({ lessons: { c: entry(true, 40, 'tablet') } }));
    other.set('lessons', 'a', false);
    expect([entryOf(other.progress(), 'lessons', 'b'), entryOf(other.progress(), 'lessons', 'a')]).toMatchObject([
      { counter: 2, device: one.device() },
      { counter: 41, device: one.device(), value: false },
    ]);
  });

  it('loses nothing between two devices whose clocks are wrong, in whichever order their files are loaded', () => {
    const [phone, tablet] = [browser({}, 'phone'), browser({}, 'tablet')];
    phone.state.clock = 9e12;
    const [here, there] = [phone.tab(), tablet.tab()];
    here.set('lessons', 'a', true);
    here.set('settings', 'a/0', { tempo: 60, swing: 0.5, loop: true });
    there.add(here.progress());
    // Later, though the clock says that it is long before.
    there.set('lessons', 'a', false);
    there.set('settings', 'a/0', { tempo: 80, swing: 0.5, loop: true });
    expect(merge(here.progress(), there.progress())).toEqual(merge(there.progress(), here.progress()));
    here.add(there.progress());
    for (const store of [here, there, phone.tab(), tablet.tab()]) {
      expect(lessons(store)).toEqual([]);
      expect(entryOf(store.progress(), 'settings', 'a/0')?.value).toMatchObject({ tempo: 80 });
    }
  });

  it('of one course is not that of another on the same origin', () => {
    const { items, tab } = browser();
    tab('/').set('lessons', 'a', true);
    tab('/blues/').set('lessons', 'b', true);
    tab('/blues/').set('log', 'd/2026-11', {});
    expect([lessons(tab('/')), lessons(tab('/blues/')), lessons(tab('/blues/more/'))]).toEqual([['a'], ['b'], []]);
    expect(tab('/').progress().has('log')).toBe(false);
    expect([...items.keys()]).toEqual([KEY, `${KEY}blues/`]);
    // What is put aside of one is not offered by another either.
    items.set(`${KEY}blues/`, 'odd');
    expect([tab('/blues/').asides(), tab('/').asides()]).toMatchObject([[{ text: 'odd' }], []]);
  });

  it('knows of its browser what is not part of a file', () => {
    const { tab } = browser();
    const store = tab();
    store.note({ saved: 5 });
    store.set('lessons', 'a', true);
    expect(tab().about()).toEqual({ saved: 5, device: store.device() });
    expect(writeRecord(store.progress())).not.toContain('saved');
  });
});
