import { hash } from 'node:crypto';
import fs, { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { NO_RECORD_STORE, openRecordStore } from '../../../src/publish/engraving/record-store.ts';
import { itemAt } from '../../../src/values/checked.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reedway-store-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (texts: Readonly<Record<string, string>>): void => {
  const store = openRecordStore(folder);
  for (const [key, text] of Object.entries(texts)) store.put(key, text);
  store.close();
};
const stores = (): string[] => readdirSync(folder).map((name) => join(folder, name));
const bytes = (): number => stores().reduce((sum, file) => sum + statSync(file).size, 0);

describe('what was put', () => {
  test('is there in the next run, with every character', () => {
    let run = 0;
    fc.assert(
      fc.property(fc.dictionary(fc.string({ minLength: 1 }), fc.string({ unit: 'grapheme' })), (written) => {
        // A key stands for one text for ever.
        run++;
        const texts = Object.fromEntries(Object.entries(written).map(([key, text]) => [`${run} ${key}`, text]));
        write(texts);
        const store = openRecordStore(folder);
        for (const [key, text] of Object.entries(texts)) expect(store.get(key)).toBe(text);
        expect(store.get('a key nobody put there')).toBeUndefined();
        store.close();
      }),
      { numRuns: 50 },
    );
  });

  test('is there although the run that put it never came to its end', () => {
    openRecordStore(folder).put('bar', '<svg/>');
    expect(openRecordStore(folder).get('bar')).toBe('<svg/>');
  });

  test('meets nobody: two runs at once both keep theirs', () => {
    const one = openRecordStore(folder);
    const two = openRecordStore(folder);
    one.put('a', '1');
    two.put('b', '2');
    one.close();
    two.close();
    const after = openRecordStore(folder);
    expect([after.get('a'), after.get('b')]).toEqual(['1', '2']);
  });
});

describe('damage', () => {
  const TEXTS = { first: 'one', second: 'two '.repeat(50), third: 'three' };

  test('of any byte never gives a wrong text, and never an error', () => {
    write(TEXTS);
    const file = itemAt(stores(), 0);
    const whole = readFileSync(file);
    for (let at = 0; at < whole.length; at++) {
      const hurt = Buffer.from(whole);
      hurt[at] = itemAt(hurt, at) ^ 0x55;
      writeFileSync(file, hurt);
      const store = openRecordStore(folder);
      for (const [key, text] of Object.entries(TEXTS)) expect([text, undefined]).toContain(store.get(key));
    }
  });

  test('by a cut anywhere leaves the records before it', () => {
    write(TEXTS);
    const file = itemAt(stores(), 0);
    const whole = readFileSync(file);
    let kept = 0;
    for (let length = 0; length <= whole.length; length++) {
      writeFileSync(file, whole.subarray(0, length));
      const store = openRecordStore(folder);
      const found = Object.entries(TEXTS).filter(([key, text]) => store.get(key) === text).length;
      expect(found).toBeGreaterThanOrEqual(kept);
      kept = found;
    }
    expect(kept).toBe(3);
  });

  test('that can be seen without reading a text is known: a record cut short, or of another kind', () => {
    write(TEXTS);
    const file = itemAt(stores(), 0);
    const whole = readFileSync(file);
    writeFileSync(file, whole.subarray(0, -1));
    expect(Object.keys(TEXTS).map((key) => openRecordStore(folder).has(key))).toEqual([true, true, false]);
    writeFileSync(file, Buffer.concat([Buffer.from('RwP1'), whole.subarray(4)]));
    expect(Object.keys(TEXTS).map((key) => openRecordStore(folder).has(key))).toEqual([false, false, false]);
  });

  test('by another file that has the name of a file of the store is passed over', () => {
    write(TEXTS);
    writeFileSync(join(folder, '0.records'), 'not a record');
    expect(openRecordStore(folder).get('first')).toBe('one');
  });
});

describe('size', () => {
  const LIMIT = 50_000;

  test('stays near the limit, and what is used stays longest', () => {
    for (let run = 0; run < 30; run++) {
      const store = openRecordStore(folder, LIMIT);
      if (run > 0) expect(store.get('used by every run')).toBe('this');
      else store.put('used by every run', 'this');
      for (let i = 0; i < 10; i++) store.put(`${run} ${i}`, 'z'.repeat(1000));
      store.close();
      expect(bytes()).toBeLessThan(LIMIT + 11_000);
    }
    const after = openRecordStore(folder, LIMIT);
    expect(after.get('29 0')).toBeDefined();
    expect(after.get('0 0')).toBeUndefined();
  });

  test('of many small runs is few files, with everything in them', () => {
    for (let run = 0; run < 30; run++) {
      const store = openRecordStore(folder);
      store.put(`${run}`, 'text');
      store.close();
    }
    expect(stores().length).toBeLessThan(10);
    const after = openRecordStore(folder);
    for (let run = 0; run < 30; run++) expect(after.get(`${run}`)).toBe('text');
  });

  test('does not grow by what is there already', () => {
    const store = openRecordStore(folder);
    store.put('a', '1');
    const before = bytes();
    store.put('a', '1');
    expect(bytes()).toBe(before);
  });
});

describe('the limit', () => {
  /** Of a record apart from its text. */
  const HEAD = 40;
  /** Texts that make records of 100 bytes each, in files of some each. */
  const files = (count: number, each = 1): void => {
    for (let file = 0; file < count; file++)
      write(Object.fromEntries(Array.from({ length: each }, (_, i) => [`${file * each + i}`, 'x'.repeat(100 - HEAD)])));
  };
  const closeWith = (limit: number, used: readonly string[] = []): void => {
    const store = openRecordStore(folder, limit);
    for (const key of used) expect(store.get(key)).toBeDefined();
    store.close();
  };
  const kept = (count: number): string[] => {
    const store = openRecordStore(folder);
    return Array.from({ length: count }, (_, i) => `${i}`).filter((key) => store.has(key));
  };

  test('is a number of bytes: what has just so many stays, and of one more only half of the limit', () => {
    files(1, 5);
    const before = stores();
    closeWith(500);
    expect(stores()).toEqual(before);
    expect(bytes()).toBe(500);
    closeWith(499);
    expect(stores()).not.toEqual(before);
    expect(kept(5)).toHaveLength(2);
    expect(bytes()).toBe(200);
  });

  test('leaves first what this run has asked for, then what came last', () => {
    files(1, 5);
    closeWith(400, ['1']);
    expect(kept(5)).toEqual(['1', '4']);
  });

  test('counts each record once, also one that this run has asked for', () => {
    files(1, 5);
    closeWith(400, ['4']);
    expect(kept(5)).toEqual(['3', '4']);
  });

  test('gathers what was there before, and leaves what this run has put in a file of its own', () => {
    files(8);
    const store = openRecordStore(folder);
    store.put('8', 'new');
    expect(store.get('8')).toBe('new');
    store.close();
    expect(stores()).toHaveLength(2);
    expect(kept(9)).toHaveLength(9);
  });

  test('gathers, although another run has taken some of the files away', () => {
    files(8);
    const store = openRecordStore(folder);
    rmSync(itemAt(stores().sort(), 0));
    store.close();
    expect(stores()).toHaveLength(1);
    expect(kept(8)).toHaveLength(8);
  });

  test('leaves in place what was asked for, in the order of asking', () => {
    files(1, 5);
    closeWith(400, ['3', '0', '1']);
    expect(kept(5)).toEqual(['0', '3']);
  });

  test('of files is eight: so many are gathered into one, as much as the limit lets them hold', () => {
    files(7);
    closeWith(800);
    expect(stores()).toHaveLength(7);
    write({ '7': 'x'.repeat(100 - HEAD) });
    closeWith(800);
    expect(stores()).toHaveLength(1);
    expect(kept(8)).toHaveLength(8);
  });

  test('is there for a store that says nothing of it', () => {
    files(8);
    closeWith(192 * 1024 * 1024);
    expect(kept(8)).toHaveLength(8);
  });
});

describe('the file of a store', () => {
  const digest = (data: string | Uint8Array): Buffer => hash('sha256', data, 'buffer').subarray(0, 16);

  test('has records of four letters, the length of the text, the digests of what follows and of the key, and the text', () => {
    write({ 'a key': 'Grüße' });
    const text = Buffer.from('Grüße');
    const follows = Buffer.concat([digest('a key'), text]);
    const length = Buffer.from([0, 0, 0, text.length]);
    const record = Buffer.concat([Buffer.from('RwP2'), length, digest(follows), follows]);
    expect(readFileSync(itemAt(stores(), 0))).toEqual(record);
    expect(itemAt(stores(), 0)).toMatch(/\.records$/);
  });

  test('is no other file of the folder, and no folder in it', () => {
    write({ a: '1' });
    const file = itemAt(stores(), 0);
    const other = join(folder, 'kept.txt');
    writeFileSync(other, readFileSync(file));
    mkdirSync(join(folder, '0.records'));
    rmSync(file);
    write({ b: '2' });
    const store = openRecordStore(folder);
    expect([store.get('a'), store.get('b')]).toEqual([undefined, '2']);
    for (let run = 0; run < 8; run++) write({ [`${run}`]: 'text' });
    openRecordStore(folder).close();
    expect(readdirSync(folder)).toEqual(expect.arrayContaining(['0.records', 'kept.txt']));
    expect(openRecordStore(folder).get('b')).toBe('2');
  });

  test('is made with its folder, when there is something to write', () => {
    const inner = join(folder, 'not', 'there');
    openRecordStore(inner).close();
    expect(readdirSync(folder)).toEqual([]);
    const store = openRecordStore(inner);
    store.put('a', '1');
    store.close();
    expect(openRecordStore(inner).get('a')).toBe('1');
  });
});

test('a store says what it has: what was there, and what was put since', () => {
  write({ a: '1' });
  const store = openRecordStore(folder);
  store.put('b', '2');
  expect(['a', 'b', 'c'].map((key) => store.has(key))).toEqual([true, true, false]);
  expect(['a', 'b', 'c'].map((key) => store.get(key))).toEqual(['1', '2', undefined]);
});

describe('a disk that refuses', () => {
  const names = ['openSync', 'writeSync', 'closeSync', 'mkdirSync', 'renameSync'] as const;
  const own = Object.fromEntries(names.map((name) => [name, fs[name]]));
  /** Lets calls fail from now on. */
  const failing = (name: (typeof names)[number], code: string): void => {
    Object.assign(fs, {
      [name]: () => {
        throw Object.assign(new Error(code), { code });
      },
    });
    syncBuiltinESMExports();
  };
  const works = (): void => {
    Object.assign(fs, own);
    syncBuiltinESMExports();
  };
  afterEach(works);

  test.each([
    ['writeSync', 'ENOSPC'],
    ['openSync', 'EROFS'],
    ['mkdirSync', 'EACCES'],
  ] as const)('%s (%s) is no error: what was put is there in this run, and no more is tried', (name, code) => {
    write({ before: '0' });
    const store = openRecordStore(folder);
    failing(name, code);
    store.put('a', '1');
    expect(store.get('a')).toBe('1');
    works();
    const there = bytes();
    store.put('b', '2');
    expect(store.has('b')).toBe(false);
    expect(bytes()).toBe(there);
    store.close();
    const after = openRecordStore(folder);
    expect(['before', 'a', 'b'].map((key) => after.get(key))).toEqual(['0', undefined, undefined]);
  });

  test('in the middle of a run costs what was put from then on', () => {
    const store = openRecordStore(folder);
    store.put('a', '1');
    failing('writeSync', 'ENOSPC');
    store.put('b', '2');
    works();
    store.close();
    const after = openRecordStore(folder);
    expect([after.get('a'), after.get('b')]).toEqual(['1', undefined]);
  });

  test('does not gather after that, which takes more room still', () => {
    for (let run = 0; run < 8; run++) write({ [`${run}`]: 'text' });
    const store = openRecordStore(folder);
    const before = stores();
    failing('openSync', 'EROFS');
    store.put('a', '1');
    works();
    store.close();
    expect(stores()).toEqual(before);
  });

  test.each(['openSync', 'writeSync', 'renameSync'] as const)(
    'to gather (%s) leaves everything as it was, and nothing half written',
    (name) => {
      for (let run = 0; run < 8; run++) write({ [`${run}`]: 'text' });
      const before = stores();
      const store = openRecordStore(folder);
      failing(name, 'ENOSPC');
      store.close();
      works();
      expect(stores()).toEqual(before);
      openRecordStore(folder).close();
      expect(stores()).toHaveLength(1);
      const after = openRecordStore(folder);
      for (let run = 0; run < 8; run++) expect(after.get(`${run}`)).toBe('text');
    },
  );

  test('or not, each file that is opened is closed once', () => {
    const open = new Set<number>();
    Object.assign(fs, {
      openSync: (...given: Parameters<typeof fs.openSync>) => {
        const opened = (own['openSync'] as typeof fs.openSync)(...given);
        open.add(opened);
        return opened;
      },
      closeSync: (file: number) => {
        expect(open.delete(file)).toBe(true);
        (own['closeSync'] as typeof fs.closeSync)(file);
      },
    });
    syncBuiltinESMExports();
    for (let run = 0; run < 9; run++) {
      const store = openRecordStore(folder);
      store.put(`${run}`, 'text');
      store.put(`${run} more`, 'text');
      store.close();
      expect([...open]).toEqual([]);
      if (run === 0) store.close();
    }
    expect(stores().length).toBeLessThan(3);
    const store = openRecordStore(folder, 1);
    failing('writeSync', 'ENOSPC');
    store.close();
    expect([...open]).toEqual([]);
  });
});

test('where no folder can be written nothing is kept, and nothing fails', () => {
  NO_RECORD_STORE.put('a', '1');
  expect([NO_RECORD_STORE.has('a'), NO_RECORD_STORE.get('a'), NO_RECORD_STORE.close()]).toEqual([
    false,
    undefined,
    undefined,
  ]);
});

test('a folder that cannot be written costs nothing but time', () => {
  const store = openRecordStore('/sys/reedway');
  store.put('a', '1');
  store.close();
  expect(openRecordStore('/sys/reedway').get('a')).toBeUndefined();
});
