import { chmodSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { courseOf, folderOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const RIFF = '```tab\nid: riff\nslot: 1/4\n-2 -3 4 . |]\n```\n';
const course = () =>
  courseOf({
    'lessons/first.mdx': lesson(`${RIFF}\n\`\`\`tab\nslot: 1/4\n4 4 4 4 |]\n\`\`\`\n`, 'title: First'),
    'lessons/unit/second.mdx': lesson(RIFF, 'title: Second'),
  });
const filesBelow = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();

describe('reedway export', () => {
  test('writes a block, a lesson or the whole course', async () => {
    const dir = course();
    const write = async (...line: string[]): Promise<string[]> => {
      const out = folderOf({});
      const ran = await typed(['export', ...line, '--course', dir, '--out', out]);
      expect([ran.code, ran.err]).toEqual([0, '']);
      return filesBelow(out);
    };
    expect(await write('first/riff', '--to', 'midi')).toEqual(['first/riff.mid']);
    expect(await write('first', 'unit/second/0', '--to', 'MusicXML')).toEqual([
      'first/1.musicxml',
      'first/riff.musicxml',
      'unit/second/riff.musicxml',
    ]);
    expect(await write('--to', 'text')).toEqual(['first/1.txt', 'first/riff.txt', 'unit/second/riff.txt']);
    expect(await write('first/riff', '--to', 'midi', '--players', 'both')).toEqual(['first/riff-with-band.mid']);
  });

  test('writes one block to a file that is named, over what was there', async () => {
    const out = folderOf({ 'a.abc': 'old' });
    const ran = await typed(['export', 'first/riff', '--to', 'abc', '--course', course(), '--out', 'a.abc'], out);
    expect(ran).toEqual({ code: 0, out: 'a.abc\n', err: '' });
    expect(readFileSync(join(out, 'a.abc'), 'utf8')).toMatch(/^%abc-2\.1\nX:1\nT:First, block 1\n/);
    expect(filesBelow(out)).toEqual(['a.abc']);
  });

  test('writes for another harp', async () => {
    const out = folderOf({});
    await typed(
      ['export', 'first/riff', '--to', 'text', '--harp', 'low F', '--course', course(), '--out', 'a.txt'],
      out,
    );
    expect(readFileSync(join(out, 'a.txt'), 'utf8')).toMatch(/^First, block 1\nlow F harp, /);
  });

  test('is made again byte for byte', async () => {
    const dir = course();
    const once = async (): Promise<Buffer[]> => {
      const out = folderOf({});
      for (const format of ['musicxml', 'mxl', 'midi', 'abc', 'text', 'svg'])
        await typed(['export', 'first', '--to', format, '--course', dir, '--out', out]);
      return filesBelow(out).map((file) => readFileSync(join(out, file)));
    };
    expect(await once()).toEqual(await once());
  });
});

describe('nothing is written', () => {
  test.each([
    [['export'], 2, /--to is missing: the format, one of musicxml, mxl, midi,/],
    [['export', '--to', 'mid'], 2, /There is no format “mid”\. Did you mean midi\?/],
    [['export', '--to', 'toString'], 2, /There is no format “toString”/],
    [['export', 'firts', '--to', 'midi'], 2, /There is no lesson “firts”\. Did you mean first\?/],
    [['export', 'first', '--to', 'midi', '--harp', 'H'], 2, /“H” is no harp/],
    [['export', 'first', '--to', 'midi', '--players', 'all'], 2, /“all” is not who plays: tune, band, both/],
    [['export', 'first', '--to', 'abc', '--players', 'band'], 2, /holds the tune alone/],
    [['export', 'first', '--to', 'midi', '--out', 'a.mid'], 2, /--out names one file, but 2 blocks/],
  ])('for %j', async (line, code, message) => {
    const out = folderOf({});
    const ran = await typed([...line, '--course', course()], out);
    expect(ran.code).toBe(code);
    expect(ran.err).toMatch(message);
    expect(filesBelow(out)).toEqual([]);
  });

  test('where a block has an error, which is shown', async () => {
    const dir = courseOf({ 'lessons/first.mdx': lesson(`${RIFF}\n\`\`\`tab\n99\n\`\`\`\n`, 'title: First') });
    const out = folderOf({});
    const ran = await typed(['export', '--to', 'midi', '--course', dir, '--out', out]);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/lessons\/first\.mdx:12:1 {2}/);
    expect(ran.err).toMatch(/Nothing was written\.\n$/);
    expect(filesBelow(out)).toEqual([]);
  });

  test('where one of the files cannot be', async () => {
    const out = folderOf({ 'unit/second/riff.mid/in-the-way': '' });
    const ran = await typed(['export', '--to', 'midi', '--course', course(), '--out', out]);
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/riff\.mid cannot be written: it is a folder\. Nothing was written\.\n$/);
    expect(filesBelow(out)).toEqual(['unit/second/riff.mid/in-the-way']);
    expect(readdirSync(out)).toEqual(['unit']);
  });

  test('where the folder is a file, or may not be written to', async () => {
    const out = folderOf({ taken: '' });
    const ran = await typed(['export', '--to', 'midi', '--course', course(), '--out', join(out, 'taken')]);
    expect([ran.code, ran.err]).toEqual([1, expect.stringMatching(/cannot be written: .* Nothing was written\.\n$/)]);
    // The owner of the whole machine may write everywhere.
    if (process.getuid?.() === 0) return;
    mkdirSync(join(out, 'closed'));
    chmodSync(join(out, 'closed'), 0o500);
    const closed = await typed(['export', '--to', 'midi', '--course', course(), '--out', join(out, 'closed')]);
    expect([closed.code, closed.err]).toEqual([1, expect.stringMatching(/does not allow it/)]);
  });

  test('where sound or a picture is asked for and no browser is there', async () => {
    const out = folderOf({});
    writeFileSync(join(out, 'no-program'), '');
    const before = process.env['REEDWAY_CHROMIUM'];
    process.env['REEDWAY_CHROMIUM'] = join(out, 'no-program');
    try {
      const ran = await typed([
        'export',
        'first/riff',
        '--to',
        'png',
        '--course',
        course(),
        '--out',
        join(out, 'a.png'),
      ]);
      expect([ran.code, ran.err]).toEqual([
        1,
        expect.stringMatching(
          /^REEDWAY_CHROMIUM names .*no-program, which is not a program\. Nothing was written\.\n$/,
        ),
      ]);
    } finally {
      if (before === undefined) delete process.env['REEDWAY_CHROMIUM'];
      else process.env['REEDWAY_CHROMIUM'] = before;
    }
    expect(filesBelow(out)).toEqual(['no-program']);
  });
});
