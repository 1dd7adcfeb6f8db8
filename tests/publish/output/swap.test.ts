import { execFile } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import promises from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Claim, claimOutput, isRefusal, type Refusal } from '../../../src/publish/output/claim.ts';
import { MANIFEST, readManifest, writeManifest } from '../../../src/publish/output/manifest.ts';
import { placesOf, realFolder, recoverOutput } from '../../../src/publish/output/swap.ts';
import { alsoLong } from '../../setup/long.ts';

const BUILD = fileURLToPath(new URL('./killed-build.ts', import.meta.url));

let root: string;
let site: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'reedway-swap-'));
  site = join(root, 'site');
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

async function makeSite(folder: string, text: string, names = ['index.html', 'other.html']): Promise<void> {
  mkdirSync(folder);
  for (const name of names) writeFileSync(join(folder, name), text);
  await writeManifest(folder, '/');
}
const build = async (...given: readonly (string | number)[]): Promise<string> =>
  (await promisify(execFile)(process.execPath, [BUILD, site, ...given.map(String)])).stdout.trim();

/** What comes of publishing while the new site cannot be put in its place. */
async function refusedRename(claim: Claim, code: string): Promise<Refusal | undefined> {
  const { rename } = promises;
  promises.rename = async (from, to) => {
    if (from === claim.staging) throw Object.assign(new Error(code), { code });
    await rename(from, to);
  };
  syncBuiltinESMExports();
  try {
    return await claim.publish('/');
  } finally {
    promises.rename = rename;
    syncBuiltinESMExports();
  }
}

/** Which site is in the folder: all its files have the same text, or the test fails. */
function siteThere(): string | undefined {
  if (!existsSync(site)) return undefined;
  const names = readdirSync(site).sort();
  expect(names).toEqual([MANIFEST, 'index.html', 'other.html']);
  const texts = new Set(['index.html', 'other.html'].map((name) => readFileSync(join(site, name), 'utf8')));
  expect(texts.size).toBe(1);
  return [...texts][0];
}

describe('a build that is killed at any of its calls to the disk', () => {
  test.each(alsoLong(['before'] as const, ['after'] as const))('%s it', async (when) => {
    await makeSite(site, 'old');
    const calls = Number(await build());
    expect(calls).toBeGreaterThan(8);
    const seen: (string | undefined)[] = [];
    for (let call = 1; call <= calls; call++) {
      rmSync(root, { recursive: true });
      mkdirSync(root);
      await makeSite(site, 'old');
      await expect(build(call, when), `call ${call}`).rejects.toMatchObject({ signal: 'SIGKILL' });
      const left = siteThere();
      seen.push(left);

      await recoverOutput(site);
      // What `host` and `serve` find, and what they find again.
      const recovered = siteThere();
      expect(recovered, `call ${call}`).toBeDefined();
      if (left !== undefined) expect(['new', left]).toContain(recovered);
      await recoverOutput(site);
      expect(siteThere()).toBe(recovered);

      await build();
      expect(siteThere()).toBe('new');
      expect(readdirSync(root), `call ${call}`).toEqual(['site']);
    }
    // The folder is away from one rename to the next, and never else.
    expect(seen.filter((left) => left === undefined)).toHaveLength(1);
    expect(new Set(seen)).toEqual(new Set(['old', undefined, 'new']));
  });
});

describe('a swap that was interrupted', () => {
  test('is brought to its end where the new site is complete', async () => {
    await makeSite(site, 'old');
    await makeSite(join(root, '.site.next'), 'new');
    writeFileSync(join(root, '.site.journal'), '');
    await recoverOutput(site);
    expect(siteThere()).toBe('new');
    expect(readdirSync(root)).toEqual(['site']);
  });

  test('is dropped where somebody has put a file of theirs into the site', async () => {
    await makeSite(site, 'old');
    writeFileSync(join(site, 'CNAME'), 'school.example');
    await makeSite(join(root, '.site.next'), 'new');
    writeFileSync(join(root, '.site.journal'), '');
    await recoverOutput(site);
    expect(readFileSync(join(site, 'CNAME'), 'utf8')).toBe('school.example');
    expect(existsSync(join(root, '.site.journal'))).toBe(false);
  });

  test('puts the old site back where the new one is gone', async () => {
    await makeSite(join(root, '.site.last'), 'old');
    writeFileSync(join(root, '.site.journal'), '');
    await recoverOutput(site);
    expect(siteThere()).toBe('old');
  });

  test('puts the old site back where there is not even a journal', async () => {
    await makeSite(join(root, '.site.last'), 'old');
    await recoverOutput(site);
    expect(siteThere()).toBe('old');
    expect(readdirSync(root)).toEqual(['site']);
  });

  test('is not looked for, and nothing is written, where the site is there and no journal is', async () => {
    await makeSite(site, 'old');
    const names = ['mkdir', 'open', 'rename', 'rm', 'writeFile', 'link'] as const;
    const own = Object.fromEntries(names.map((name) => [name, promises[name]]));
    const refuse = async (): Promise<never> => {
      throw new Error('The disk was written to.');
    };
    Object.assign(promises, Object.fromEntries(names.map((name) => [name, refuse])));
    syncBuiltinESMExports();
    try {
      await recoverOutput(site);
      await recoverOutput(join(root, 'nothing'));
    } finally {
      Object.assign(promises, own);
      syncBuiltinESMExports();
    }
    expect(siteThere()).toBe('old');
  });

  test('never puts back a site that is half removed', async () => {
    mkdirSync(join(root, '.site.last'));
    writeFileSync(join(root, '.site.last/index.html'), 'old');
    await recoverOutput(site);
    expect(existsSync(site)).toBe(false);
  });

  test('is left to the build that has the folder', async () => {
    const claim = await claimOutput(site);
    if (isRefusal(claim)) throw new Error(claim.refused);
    await makeSite(join(root, '.site.last'), 'old');
    writeFileSync(join(root, '.site.journal'), '');
    await recoverOutput(site);
    expect(existsSync(site)).toBe(false);
    await claim.release();
    await recoverOutput(site);
    expect(siteThere()).toBe('old');
  });
});

test('what a build has beside its folder is hidden, and named after it', () => {
  expect(placesOf('/www/site')).toEqual({
    target: '/www/site',
    staging: '/www/.site.next',
    last: '/www/.site.last',
    journal: '/www/.site.journal',
    lock: '/www/.site.lock',
  });
});

test('a folder is known by its path without links, also where it is not there yet; other errors are passed on', async () => {
  mkdirSync(join(root, 'www'));
  symlinkSync(join(root, 'www'), join(root, 'link'));
  writeFileSync(join(root, 'file'), '');
  symlinkSync(join(root, 'loop'), join(root, 'loop'));
  expect(await realFolder(join(root, 'link'))).toBe(join(root, 'www'));
  expect(await realFolder(join(root, 'link', 'a', 'b'))).toBe(join(root, 'www', 'a', 'b'));
  await expect(realFolder(join(root, 'file', 'site'))).rejects.toMatchObject({ code: 'ENOTDIR' });
  await expect(realFolder(join(root, 'loop'))).rejects.toMatchObject({ code: 'ELOOP' });
});

test('what an earlier build left as the old site is no hindrance', async () => {
  await makeSite(site, 'old');
  const claim = await claimOutput(site);
  if (isRefusal(claim)) throw new Error(claim.refused);
  await makeSite(join(root, '.site.last'), 'older');
  for (const name of ['index.html', 'other.html']) writeFileSync(join(claim.staging, name), 'new');
  expect(await claim.publish('/')).toBeUndefined();
  await claim.release();
  expect(siteThere()).toBe('new');
  expect(readdirSync(root)).toEqual(['site']);
});

test.each([['a first site'], ['a site over an old one']])(
  '%s that cannot take its place is refused for what went wrong',
  async (which) => {
    if (which === 'a site over an old one') await makeSite(site, 'old');
    const claim = await claimOutput(site);
    if (isRefusal(claim)) throw new Error(claim.refused);
    expect(await refusedRename(claim, 'ENOSPC')).toEqual({ refused: `${site} cannot be written: the disk is full.` });
    await claim.release();
    expect(siteThere()).toBe(which === 'a first site' ? undefined : 'old');
  },
);

test('the old site is back when the new one cannot take its place', async () => {
  await makeSite(site, 'old');
  const claim = await claimOutput(site);
  if (isRefusal(claim)) throw new Error(claim.refused);
  writeFileSync(join(claim.staging, 'index.html'), 'new');
  expect(await refusedRename(claim, 'EBUSY')).toEqual({
    refused: `${site} cannot be written: another program has it open.`,
  });
  await claim.release();
  expect(siteThere()).toBe('old');
  expect(await readManifest(site)).toBeDefined();
  expect(readdirSync(root)).toEqual(['site']);
});

test('a build that is stopped while it publishes ends that first', async () => {
  await makeSite(site, 'old');
  const claim = await claimOutput(site);
  if (isRefusal(claim)) throw new Error(claim.refused);
  for (const name of ['index.html', 'other.html']) writeFileSync(join(claim.staging, name), 'new');
  const published = claim.publish('/');
  await claim.release();
  expect(siteThere()).toBe('new');
  expect(await published).toBeUndefined();
  expect(readdirSync(root)).toEqual(['site']);
});
