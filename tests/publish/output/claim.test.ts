import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type Claim, claimOutput, isRefusal, unusable } from '../../../src/publish/output/claim.ts';
import { MANIFEST, readManifest } from '../../../src/publish/output/manifest.ts';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'reedway-out-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const claimed = async (folder: string): Promise<Claim> => {
  const claim = await claimOutput(folder);
  if (isRefusal(claim)) throw new Error(claim.refused);
  return claim;
};
const refusal = async (folder: string): Promise<string> => {
  const claim = await claimOutput(folder);
  if (isRefusal(claim)) return claim.refused;
  await claim.release();
  throw new Error('The folder was given out.');
};
const publish = async (folder: string, page: string): Promise<void> => {
  const claim = await claimed(folder);
  writeFileSync(join(claim.staging, 'index.html'), page);
  expect(await claim.publish('/')).toBeUndefined();
  await claim.release();
};
const page = (folder: string): string => readFileSync(join(folder, 'index.html'), 'utf8');

describe('a build that goes well', () => {
  test('makes the folder, with the folders above it', async () => {
    await publish(join(root, 'a/b/site'), 'one');
    expect(page(join(root, 'a/b/site'))).toBe('one');
  });

  test('takes the place of the site before it, whole, and leaves nothing beside it', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    const claim = await claimed(site);
    writeFileSync(join(claim.staging, 'other.html'), 'two');
    expect(page(site)).toBe('one');
    expect(await claim.publish('/')).toBeUndefined();
    await claim.release();
    expect(readdirSync(site).sort()).toEqual([MANIFEST, 'other.html']);
    expect(readdirSync(root)).toEqual(['site']);
  });

  test('goes into an empty folder, and one with nothing but what file managers leave', async () => {
    const site = join(root, 'site');
    mkdirSync(site);
    writeFileSync(join(site, '.DS_Store'), '');
    await publish(site, 'one');
    expect(page(site)).toBe('one');
  });

  test('says under which address it is, and which files are its own', async () => {
    await publish(join(root, 'site'), 'one');
    expect(await readManifest(join(root, 'site'))).toEqual({ madeBy: 'Reedway', base: '/', files: ['index.html'] });
    expect(await readManifest(root)).toBeUndefined();
  });

  test('follows a link to where the site really stands', async () => {
    mkdirSync(join(root, 'www'));
    symlinkSync(join(root, 'www'), join(root, 'site'));
    await publish(join(root, 'site'), 'one');
    expect(page(join(root, 'www'))).toBe('one');
    expect(page(join(root, 'site'))).toBe('one');
  });
});

describe('a build that fails', () => {
  test('leaves the last good site as it was', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    const claim = await claimed(site);
    writeFileSync(join(claim.staging, 'index.html'), 'half');
    await claim.release();
    expect(page(site)).toBe('one');
    expect(readdirSync(root)).toEqual(['site']);
  });

  test.each([
    ['of a process that is gone', 2 ** 30],
    // As in a container, where numbers begin again.
    ['of an earlier process with our number', process.pid],
  ])('and crashes half way is cleared up by the next, with a lock %s', async (_, pid) => {
    const site = join(root, 'site');
    await publish(site, 'one');
    mkdirSync(join(root, '.site.next'));
    writeFileSync(join(root, '.site.next/index.html'), 'half');
    writeFileSync(join(root, '.site.lock'), JSON.stringify({ pid, host: hostname() }));
    await publish(site, 'two');
    expect(page(site)).toBe('two');
    expect(readdirSync(root)).toEqual(['site']);
  });

  test('and crashes between taking the old site away and putting the new one there loses neither', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    renameSync(site, join(root, '.site.last'));
    const claim = await claimed(site);
    expect(page(site)).toBe('one');
    await claim.release();
    expect(page(site)).toBe('one');
  });
});

describe('a folder that is not for us', () => {
  test('is refused when it holds anything else, and stays as it is', async () => {
    const home = join(root, 'home');
    mkdirSync(home);
    writeFileSync(join(home, 'letters.txt'), 'dear');
    expect(await refusal(home)).toMatch('is not empty and is not a site made by Reedway');
    expect(readdirSync(root)).toEqual(['home']);
    expect(readFileSync(join(home, 'letters.txt'), 'utf8')).toBe('dear');
  });

  test('is refused when somebody put a file into our site, and names it', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    writeFileSync(join(site, 'CNAME'), 'school.example');
    expect(await refusal(site)).toMatch('(CNAME)');
    expect(existsSync(join(site, 'CNAME'))).toBe(true);
  });

  test('is refused when it is a file, or below one', async () => {
    writeFileSync(join(root, 'file'), '');
    expect(await refusal(join(root, 'file'))).toBe(`${join(root, 'file')} is a file, not a folder.`);
    expect(await refusal(join(root, 'file/site'))).toMatch('part of the path is a file');
    expect(readdirSync(root)).toEqual(['file']);
  });

  test.each(['.site.next', '.site.last', '.site.journal', '.site.lock'])(
    'is refused where a build to another folder would remove it: %s',
    async (name) => {
      expect(await refusal(join(root, name))).toMatch('would be removed');
      expect(readdirSync(root)).toEqual([]);
    },
  );
  test('is not refused for a name that only resembles those', async () => {
    for (const name of ['site.next', '.site', '.next', '.site.next.old']) await publish(join(root, name), 'one');
  });

  test('is refused where nobody may write', async () => {
    expect(await refusal('/sys/reedway/site')).toMatch('cannot be written');
    expect(await claimOutput('/sys/reedway/site')).toMatchObject({
      help: 'Reedway builds beside the folder it publishes to, so it has to write in /sys/reedway.',
    });
  });

  test('is refused where it is a whole disk', async () => {
    expect(await refusal('/')).toBe('/ is the root of a disk, not a folder for a site.');
  });

  test('is refused when somebody put a file into it while the site was built, and stays as it is', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    const claim = await claimed(site);
    writeFileSync(join(claim.staging, 'index.html'), 'two');
    writeFileSync(join(site, 'CNAME'), 'school.example');
    expect((await claim.publish('/'))?.refused).toMatch('(CNAME)');
    await claim.release();
    expect(page(site)).toBe('one');
    expect(readdirSync(site)).toContain('CNAME');
    expect(readdirSync(root)).toEqual(['site']);
  });

  test('is refused when what was built is gone', async () => {
    const site = join(root, 'site');
    await publish(site, 'one');
    const claim = await claimed(site);
    rmSync(claim.staging, { recursive: true });
    expect((await claim.publish('/'))?.refused).toMatch(`${site} cannot be written: `);
    await claim.release();
    expect(page(site)).toBe('one');
  });

  test('is refused while another build has it', async () => {
    const first = await claimed(join(root, 'site'));
    expect(await refusal(join(root, 'site'))).toMatch(`(process ${process.pid})`);
    await first.release();
    await publish(join(root, 'site'), 'later');
  });
});

describe('what a disk error means', () => {
  test.each([
    ['ENOSPC', 'the disk is full'],
    ['EDQUOT', 'your share of the disk is used up'],
    ['EROFS', 'the disk is read-only'],
    ['EACCES', 'you may not write there'],
    ['EPERM', 'you may not write there'],
    ['ENOTDIR', 'part of the path is a file, not a folder'],
    ['EEXIST', 'part of the path is a file, not a folder'],
    ['EBUSY', 'another program has it open'],
    ['EXDEV', 'it is the root of a disk of its own; build to a folder inside it'],
    ['ENAMETOOLONG', 'the name is too long'],
    ['EODD', 'the words of the system'],
  ])('%s', (code, reason) => {
    const error = Object.assign(new Error('the words of the system'), { code });
    expect(unusable('/a/site', error)).toStrictEqual({ refused: `/a/site cannot be written: ${reason}.` });
  });
  test('is known by its code alone as well, and comes with what helps', () => {
    expect(unusable('/a', 'ENOSPC', 'Make room.')).toEqual({
      refused: '/a cannot be written: the disk is full.',
      help: 'Make room.',
    });
    expect(unusable('/a', 'odd').refused).toBe('/a cannot be written: odd.');
  });
});

test('of many strange files a few are named', async () => {
  const site = join(root, 'site');
  await publish(site, 'one');
  for (const name of ['a', 'b', 'c']) writeFileSync(join(site, name), '');
  expect(await refusal(site)).toContain('(a, b, c)');
  writeFileSync(join(site, 'd'), '');
  expect(await refusal(site)).toContain('(a, b, c, and 1 more)');
});

test('a folder inside of one that belongs to the course is refused, and one beside it is not', async () => {
  const media = join(root, 'media');
  mkdirSync(media);
  const inside = await claimOutput(join(media, 'site'), [media]);
  expect(isRefusal(inside) && inside.refused).toContain('whose files belong to the course');
  const itself = await claimOutput(media, [media]);
  expect(isRefusal(itself)).toBe(true);
  const beside = await claimOutput(join(root, 'media-site'), [media]);
  expect(isRefusal(beside)).toBe(false);
  if (!isRefusal(beside)) await beside.release();
  expect(readdirSync(root)).toEqual(['media']);
});
