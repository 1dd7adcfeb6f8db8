import { createHash } from 'node:crypto';
import fs, { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import os, { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { cacheFolder } from '../../src/publish/cache-folder.ts';
import { ROOT } from '../../src/publish/root.ts';

const BESIDE = join(ROOT, 'node_modules', '.cache', 'reedway');
/** Of the place Reedway is installed in. */
const PLACE = createHash('sha256').update(ROOT).digest('hex').slice(0, 8);

let root: string;
const own = { mkdirSync: fs.mkdirSync, accessSync: fs.accessSync, homedir: os.homedir };
const xdg = process.env['XDG_CACHE_HOME'];
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'reedway-cache-'));
});
afterEach(() => {
  Object.assign(fs, { mkdirSync: own.mkdirSync, accessSync: own.accessSync });
  Object.assign(os, { homedir: own.homedir });
  syncBuiltinESMExports();
  if (xdg === undefined) delete process.env['XDG_CACHE_HOME'];
  else process.env['XDG_CACHE_HOME'] = xdg;
  rmSync(root, { recursive: true });
});

/** Lets one way of asking fail for some folders. */
function refuse(name: 'mkdirSync' | 'accessSync', which: (folder: string) => boolean): void {
  Object.assign(fs, {
    [name]: (folder: string, ...given: never[]) => {
      if (which(folder)) throw Object.assign(new Error('read-only'), { code: 'EROFS' });
      return own[name](folder, ...given);
    },
  });
  syncBuiltinESMExports();
}

describe('the folder for caches', () => {
  test('is beside the packages', () => {
    expect(cacheFolder()).toBe(BESIDE);
    expect(existsSync(BESIDE)).toBe(true);
  });
  test.each(['mkdirSync', 'accessSync'] as const)(
    'is the user’s own, for this place, where that cannot be written (%s)',
    (name) => {
      process.env['XDG_CACHE_HOME'] = root;
      refuse(name, (folder) => folder === BESIDE);
      const folder = join(root, 'reedway', PLACE);
      expect(cacheFolder()).toBe(folder);
      expect(existsSync(folder)).toBe(true);
      // A second run finds it.
      expect(cacheFolder()).toBe(folder);
    },
  );
  test.each([undefined, ''])('is in the home folder where the user has named none (%j)', (named) => {
    if (named === undefined) delete process.env['XDG_CACHE_HOME'];
    else process.env['XDG_CACHE_HOME'] = named;
    Object.assign(os, { homedir: () => root });
    refuse('mkdirSync', (folder) => folder === BESIDE);
    expect(cacheFolder()).toBe(join(root, '.cache', 'reedway', PLACE));
  });
  test('is asked whether it can be written, not only whether it is there', () => {
    let mode: number | undefined;
    Object.assign(fs, {
      accessSync: (folder: string, asked: number) => {
        mode = asked;
        own.accessSync(folder, asked);
      },
    });
    syncBuiltinESMExports();
    cacheFolder();
    expect(mode).toBe(fs.constants.W_OK);
  });
  test('is an error where nothing can be written', () => {
    refuse('mkdirSync', () => true);
    expect(cacheFolder).toThrow('No folder for temporary files can be written.');
  });
});
