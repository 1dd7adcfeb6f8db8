import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openPack } from '../../src/site/pack.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'reedway-pack-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const write = (texts: Readonly<Record<string, string>>): void => {
  const pack = openPack(folder);
  for (const [key, text] of Object.entries(texts)) pack.put(key, text);
  pack.close();
};
const packs = (): string[] => readdirSync(folder).map((name) => join(folder, name));
const bytes = (): number => packs().reduce((sum, file) => sum + statSync(file).size, 0);

describe('what was put', () => {
  test('is there in the next run, with every character', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ minLength: 1 }), fc.string({ unit: 'grapheme' })), (texts) => {
        write(texts);
        const pack = openPack(folder);
        for (const [key, text] of Object.entries(texts)) expect(pack.get(key)).toBe(text);
        expect(pack.get('a key nobody put there')).toBeUndefined();
        pack.close();
      }),
      { numRuns: 50 },
    );
  });

  test('is there although the run that put it never came to its end', () => {
    openPack(folder).put('bar', '<svg/>');
    expect(openPack(folder).get('bar')).toBe('<svg/>');
  });

  test('meets nobody: two runs at once both keep theirs', () => {
    const one = openPack(folder);
    const two = openPack(folder);
    one.put('a', '1');
    two.put('b', '2');
    one.close();
    two.close();
    const after = openPack(folder);
    expect([after.get('a'), after.get('b')]).toEqual(['1', '2']);
  });
});

describe('damage', () => {
  const TEXTS = { first: 'one', second: 'two '.repeat(50), third: 'three' };

  test('of any byte never gives a wrong text, and never an error', () => {
    write(TEXTS);
    const file = packs()[0] as string;
    const whole = readFileSync(file);
    for (let at = 0; at < whole.length; at++) {
      const hurt = Buffer.from(whole);
      hurt[at] = (hurt[at] as number) ^ 0x55;
      writeFileSync(file, hurt);
      const pack = openPack(folder);
      for (const [key, text] of Object.entries(TEXTS)) expect([text, undefined]).toContain(pack.get(key));
    }
  });

  test('by a cut anywhere leaves the records before it', () => {
    write(TEXTS);
    const file = packs()[0] as string;
    const whole = readFileSync(file);
    let kept = 0;
    for (let length = 0; length <= whole.length; length++) {
      writeFileSync(file, whole.subarray(0, length));
      const pack = openPack(folder);
      const found = Object.entries(TEXTS).filter(([key, text]) => pack.get(key) === text).length;
      expect(found).toBeGreaterThanOrEqual(kept);
      kept = found;
    }
    expect(kept).toBe(3);
  });

  test('by another file that has the name of one of ours is passed over', () => {
    write(TEXTS);
    writeFileSync(join(folder, '0.pack'), 'no record of ours');
    expect(openPack(folder).get('first')).toBe('one');
  });
});

describe('size', () => {
  test('comes down to what a run used, once the files hold far more than that', () => {
    write(Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`old ${i}`, 'x'.repeat(100_000)])));
    const before = bytes();
    const pack = openPack(folder);
    expect(pack.get('old 1')).toBeDefined();
    pack.put('new', 'y');
    pack.close();
    expect(bytes()).toBeLessThan(before / 10);
    const after = openPack(folder);
    expect(after.get('old 1')).toBeDefined();
    expect(after.get('new')).toBe('y');
    expect(after.get('old 2')).toBeUndefined();
  });

  test('never passes the limit for long', () => {
    for (let run = 0; run < 5; run++) {
      const pack = openPack(folder, 10_000);
      for (let i = 0; i < 10; i++) {
        pack.get(`${i}`);
        pack.put(`${run} ${i}`, 'z'.repeat(1000));
      }
      pack.close();
    }
    openPack(folder, 10_000).close();
    expect(bytes()).toBeLessThan(10_000);
  });

  test('of many small runs is one file again after a while', () => {
    for (let run = 0; run < 20; run++) {
      const pack = openPack(folder);
      for (let i = 0; i < run; i++) expect(pack.get(`${i}`)).toBe('text');
      pack.put(`${run}`, 'text');
      pack.close();
    }
    expect(packs().length).toBeLessThan(10);
  });
});

test('a folder that cannot be written costs nothing but time', () => {
  const pack = openPack('/sys/reedway');
  pack.put('a', '1');
  expect(pack.get('a')).toBeUndefined();
  pack.close();
});
