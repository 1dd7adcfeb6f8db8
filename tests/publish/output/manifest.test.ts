import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, inject, test } from 'vitest';
import { filesOf, foreignFiles, MANIFEST, readManifest, writeManifest } from '../../../src/publish/output/manifest.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(inject('scratch'), 'manifest-'));
  mkdirSync(join(folder, 'lessons/first'), { recursive: true });
  mkdirSync(join(folder, 'empty'));
  for (const file of ['index.html', 'lessons/first/index.html', '.DS_Store', 'lessons/Thumbs.db', 'desktop.ini'])
    writeFileSync(join(folder, file), '');
});

describe('the list of the files of a site', () => {
  test('has every file below the folder in a fixed order, and nothing that file managers leave', async () => {
    expect(await filesOf(folder)).toEqual(['index.html', 'lessons/first/index.html']);
    await writeManifest(folder, '/course/');
    expect(await filesOf(folder)).toEqual(['index.html', 'lessons/first/index.html']);
  });

  test('is read as it was written, with the address the site is made for', async () => {
    await writeManifest(folder, '/course/');
    expect(await readManifest(folder)).toEqual({
      madeBy: 'Reedway',
      base: '/course/',
      files: ['index.html', 'lessons/first/index.html'],
    });
    expect(readFileSync(join(folder, MANIFEST), 'utf8')).toMatch(/\}\n$/);
  });

  test('tells what others have put there, and nothing of a folder that is not ours', async () => {
    writeFileSync(join(folder, 'mine.txt'), '');
    expect(await foreignFiles(folder)).toEqual([]);
    await writeManifest(folder, '/');
    expect(await foreignFiles(folder)).toEqual([]);
    writeFileSync(join(folder, 'yours.txt'), '');
    writeFileSync(join(folder, 'lessons/.DS_Store'), '');
    expect(await foreignFiles(folder)).toEqual(['yours.txt']);
  });

  test.each([
    ['no file', undefined],
    ['no JSON', 'words'],
    ['nothing', 'null'],
    ['a list', '[]'],
    ['made by another', '{"madeBy":"Another","base":"/","files":[]}'],
    ['without an address', '{"madeBy":"Reedway","files":[]}'],
    ['without files', '{"madeBy":"Reedway","base":"/"}'],
    ['with other files', '{"madeBy":"Reedway","base":"/","files":"all"}'],
  ])('that is %s is none', async (_, text) => {
    if (text !== undefined) writeFileSync(join(folder, MANIFEST), text);
    expect(await readManifest(folder)).toBeUndefined();
  });
});
