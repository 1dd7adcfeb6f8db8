import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openRecordStore } from '../../../src/publish/engraving/record-store.ts';
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

test('a folder that cannot be written costs nothing but time', () => {
  const store = openRecordStore('/sys/reedway');
  store.put('a', '1');
  store.close();
  expect(openRecordStore('/sys/reedway').get('a')).toBeUndefined();
});
