import { existsSync, mkdtempSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';
import { hostname } from 'node:os';
import { dirname, join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { beforeEach, describe, expect, inject, test } from 'vitest';
import { releaseLock, takeLock } from '../../../src/publish/output/lock.ts';

let lock: string;
beforeEach(() => {
  lock = join(mkdtempSync(join(inject('scratch'), 'lock-')), '.dist.lock');
});

/** No process has a number as high as this. */
const GONE = 2 ** 30;
const leave = (holder: object): void => writeFileSync(lock, JSON.stringify(holder));

describe('a lock', () => {
  test('is taken, names its holder, and is given back', async () => {
    expect(await takeLock(lock)).toBeUndefined();
    expect(JSON.parse(readFileSync(lock, 'utf8'))).toEqual({ pid: process.pid, host: hostname() });
    await releaseLock(lock);
    expect(existsSync(lock)).toBe(false);
    expect(await takeLock(lock)).toBeUndefined();
    await releaseLock(lock);
    await releaseLock(lock);
  });

  test('is not taken twice, by this process or another that runs', async () => {
    await takeLock(lock);
    expect(await takeLock(lock)).toBe(process.pid);
    await releaseLock(lock);
    leave({ pid: process.ppid, host: hostname() });
    expect(await takeLock(lock)).toBe(process.ppid);
    expect(existsSync(lock)).toBe(true);
  });

  test('of a process that is gone is taken over', async () => {
    leave({ pid: GONE, host: hostname() });
    expect(await takeLock(lock)).toBeUndefined();
    await releaseLock(lock);
  });

  test('of a process that is gone is taken over by one of those who want it', async () => {
    for (let round = 0; round < 4; round++) {
      leave({ pid: GONE, host: hostname() });
      const taken = await Promise.all(Array.from({ length: 6 }, () => takeLock(lock)));
      expect(taken.sort()).toEqual([...Array(5).fill(process.pid), undefined]);
      await releaseLock(lock);
      expect(readdirSync(dirname(lock))).toEqual([]);
    }
  });

  test('is taken over though a process was killed as it did so', async () => {
    leave({ pid: GONE, host: hostname() });
    writeFileSync(`${lock}-guard`, '');
    const before = Date.now() / 1000 - 10;
    utimesSync(`${lock}-guard`, before, before);
    expect(await takeLock(lock)).toBeUndefined();
    expect(readdirSync(dirname(lock))).toEqual(['.dist.lock']);
    await releaseLock(lock);
  });

  test('that cannot be written is not left', async () => {
    const { writeFile } = promises;
    promises.writeFile = async (...given) => {
      await writeFile(given[0], '');
      throw Object.assign(new Error('full'), { code: 'ENOSPC' });
    };
    syncBuiltinESMExports();
    try {
      await expect(takeLock(lock)).rejects.toThrow('full');
    } finally {
      promises.writeFile = writeFile;
      syncBuiltinESMExports();
    }
    expect(readdirSync(dirname(lock))).toEqual([]);
  });

  test('of a process on another machine stays, because that cannot be asked', async () => {
    leave({ pid: GONE, host: `${hostname()}-other` });
    expect(await takeLock(lock)).toBe(GONE);
    leave({ pid: process.pid, host: `${hostname()}-other` });
    expect(await takeLock(lock)).toBe(process.pid);
  });

  test('with our own number that we do not hold was left by a crash, as in a container', async () => {
    leave({ pid: process.pid, host: hostname() });
    expect(await takeLock(lock)).toBeUndefined();
    await releaseLock(lock);
  });

  test.each(['', 'words', '{}', '{"pid":"1","host":"a"}', '{"pid":1}'])(
    'that says %j for long is taken over',
    async (text) => {
      writeFileSync(lock, text);
      const before = Date.now() / 1000 - 10;
      utimesSync(lock, before, before);
      expect(await takeLock(lock)).toBeUndefined();
      await releaseLock(lock);
    },
  );

  test('that was made a moment ago and is still empty is waited for', async () => {
    writeFileSync(lock, '');
    const taking = takeLock(lock);
    await sleep(20);
    leave({ pid: process.ppid, host: hostname() });
    expect(await taking).toBe(process.ppid);
  });

  test('that was given back is no longer ours', async () => {
    await takeLock(lock);
    await releaseLock(lock);
    leave({ pid: process.pid, host: hostname() });
    expect(await takeLock(lock)).toBeUndefined();
    await releaseLock(lock);
  });

  test('cannot be taken where no file can be made', async () => {
    await expect(takeLock(join(lock, 'below', 'nothing'))).rejects.toThrow(/ENOENT/);
  });
});
