import { describe, expect, it } from 'vitest';
import { isDone, NOTHING, writeRecord } from '../../../src/browser/progress/record.ts';
import { openStore, type Store, type Surroundings } from '../../../src/browser/progress/store.ts';

const KEY = 'reedway-progress:/';

/** A browser's storage, shared by the tabs opened on it; `full` refuses to take more. */
function browser(kept: Readonly<Record<string, string>> = {}) {
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
  const tab = (): Store => openStore('/', { storage, now: () => state.clock++ });
  return { items, state, tab };
}

const lessons = (store: Store): string[] =>
  [...store.progress().lessons.keys()].filter((id) => isDone(store.progress(), 'lessons', id)).sort();

describe('progress in the browser', () => {
  it('is there again when the browser is', () => {
    const { tab } = browser();
    const before = tab();
    before.mark('lessons', 'a', true);
    before.mark('blocks', 'a/0', true);
    before.mark('lessons', 'b', true);
    before.mark('lessons', 'b', false);
    const after = tab();
    expect(lessons(after)).toEqual(['a']);
    expect(isDone(after.progress(), 'blocks', 'a/0')).toBe(true);
  });

  it('is not overwritten by another tab that has not seen it', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    one.mark('lessons', 'a', true);
    other.mark('lessons', 'b', true);
    one.mark('lessons', 'c', true);
    other.mark('lessons', 'a', false);
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
    one.mark('lessons', 'a', true);
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
    store.mark('lessons', 'c', true);
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
      tab().mark('lessons', 'a', true);
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
    store.mark('lessons', 'a', true);
    expect(lessons(store)).toEqual(['a']);
    expect(store.trouble()).toBe('full');
    expect(items.get(KEY)).toBe('damaged');
  });

  it('lasts as long as the page where the browser keeps nothing', () => {
    const store = openStore('/', { storage: undefined, now: () => 1 });
    store.mark('lessons', 'a', true);
    expect(lessons(store)).toEqual(['a']);
    expect(store.trouble()).toBe('blocked');
  });

  it('says when there is no room, and no longer once there is, and then keeps what was marked before', () => {
    const { state, tab } = browser();
    const store = tab();
    expect(store.trouble()).toBeUndefined();
    state.full = true;
    store.mark('lessons', 'a', true);
    expect(store.trouble()).toBe('full');
    expect(lessons(tab())).toEqual([]);
    state.full = false;
    store.mark('lessons', 'b', true);
    expect(store.trouble()).toBeUndefined();
    expect(lessons(tab())).toEqual(['a', 'b']);
  });

  it.each([Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER - 1, 8.64e15 + 1, 8.64e15])(
    'can be changed though its time is at the limit of what is read: %d',
    (at) => {
      const { items, tab } = browser({ [KEY]: `{"version":1,"lessons":{"a":{"done":true,"at":${at}}},"blocks":{}}` });
      expect(lessons(tab())).toEqual(['a']);
      for (const done of [false, true, false]) {
        tab().mark('lessons', 'a', done);
        expect(lessons(tab())).toEqual(done ? ['a'] : []);
      }
      expect(tab().asides()).toEqual([]);
      expect([...items.keys()]).toEqual([KEY]);
    },
  );

  it('takes over from a file what was said later there, and nothing older', () => {
    const { tab } = browser();
    const store = tab();
    store.mark('lessons', 'a', true);
    store.add({
      ...NOTHING,
      lessons: new Map([
        ['a', { done: false, at: 1 }],
        ['b', { done: true, at: 1 }],
      ]),
    });
    expect(lessons(store)).toEqual(['a', 'b']);
    expect(lessons(tab())).toEqual(['a', 'b']);
  });

  it('takes a new word over an old one even where the clock was put back', () => {
    const { items, state, tab } = browser();
    items.set(KEY, writeRecord({ ...NOTHING, lessons: new Map([['a', { done: true, at: 9_000_000 }]]) }));
    state.clock = 5;
    const store = tab();
    store.mark('lessons', 'a', false);
    expect(lessons(tab())).toEqual([]);
  });

  it('sets a mark over one that another tab took from a clock ahead', () => {
    const { tab } = browser();
    const [one, other] = [tab(), tab()];
    one.add({ ...NOTHING, lessons: new Map([['a', { done: true, at: 9_000_000 }]]) });
    other.mark('lessons', 'a', false);
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
      return openStore('/', { storage: { ...nothing, ...parts }, now: () => 1 });
    };
    const never = (): never => {
      throw new Error('blocked');
    };
    it('to read lasts as long as the page', () => {
      const store = refusing('Error', { getItem: never, setItem: () => {} });
      expect(store.trouble()).toBe('blocked');
      store.refresh();
      expect(store.trouble()).toBe('blocked');
      store.mark('lessons', 'a', true);
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
        store.mark('lessons', 'a', true);
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
    expect(items.get(KEY)).toBe('{"version":1,"lessons":{"a":{"done":true,"at":1}},"blocks":{}}');
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
    store.mark('blocks', 'a/0', true);
    store.refresh();
    store.add(NOTHING);
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
});
