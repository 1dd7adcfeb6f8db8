/**
 * Prints what is wrong with the music of a built site, with places to look at:
 *
 *     node tests/outside/ink/measure.ts [--site FOLDER] [--width N]… [--text 100|200] [--theme dark] [--print]
 *         [--harp KEY] [--pages PATTERN] [--only PATTERN] [--json FILE] [--crops FOLDER]
 *         [--random BLOCKS] [--seed S]
 *
 * Without `--site` the demo course is built first, or with `--random` a course of so many random blocks. `--width` is of the window, or with `--print` of the paper between its margins.
 * `--harp` has every block engraved for that harp by the page. `--only` shows the kinds of fault that match.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { host } from '../../../src/publish/host.ts';
import { CHROMIUM } from '../../browser/chromium.ts';
import { cropFaults } from './crops.ts';
import type { Found } from './page.ts';
import { writeRandomCourse } from './random-course.ts';
import { measureSite, nameOfSetting, type Setting } from './site.ts';

const { values } = parseArgs({
  options: {
    site: { type: 'string' },
    width: { type: 'string', multiple: true, default: ['820'] },
    text: { type: 'string', default: '100' },
    theme: { type: 'string', default: 'light' },
    print: { type: 'boolean', default: false },
    harp: { type: 'string' },
    random: { type: 'string' },
    seed: { type: 'string', default: '1' },
    pages: { type: 'string', default: '^lessons/' },
    only: { type: 'string', default: '' },
    json: { type: 'string' },
    crops: { type: 'string' },
  },
});
/** Places of a kind that are listed and cropped. */
const SHOWN = 3;

const scratch = mkdtempSync(join(tmpdir(), 'reedway-ink-'));
const site = values.site ?? build(join(scratch, 'site'));
const hosted = await host(site, '/', 0);
const browser = await chromium.launch(CHROMIUM);
const only = new RegExp(values.only);
const measures: Record<string, unknown> = {};
try {
  for (const width of values.width) {
    const setting: Setting = {
      width: Number(width),
      text: Number(values.text),
      theme: values.theme === 'dark' ? 'dark' : 'light',
      medium: values.print ? 'print' : 'screen',
      harp: values.harp,
    };
    const started = performance.now();
    const measured = await measureSite(
      browser,
      { folder: site, address: hosted.address },
      setting,
      new RegExp(values.pages),
    );
    const seconds = ((performance.now() - started) / 1000).toFixed(1);
    const found = measured.found.filter(({ kind }) => only.test(kind));
    console.log(
      `\n${nameOfSetting(setting)}: ${measured.blocks} blocks, ${Math.round(measured.height)} px high, ${seconds} s`,
    );
    print(found);
    measures[nameOfSetting(setting)] = { ...measured, found };
    if (values.crops) {
      const folder = values.width.length > 1 ? join(values.crops, width) : values.crops;
      await cropFaults(
        browser,
        hosted.address,
        setting,
        byKind(found).flatMap(([, own]) => own.slice(0, SHOWN)),
        folder,
      );
    }
  }
} finally {
  await browser.close();
  hosted.server.close();
  rmSync(scratch, { recursive: true, force: true });
}
if (values.json) writeFileSync(values.json, JSON.stringify(measures, null, 1));

function build(folder: string): string {
  const course = join(scratch, 'course');
  if (values.random !== undefined) writeRandomCourse(course, Number(values.random), Number(values.seed));
  const which = values.random === undefined ? [] : [course];
  execFileSync(process.execPath, ['src/command/reedway.ts', 'build', ...which, '--out', folder], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  return folder;
}

function byKind(found: readonly Found[]): readonly [string, readonly Found[]][] {
  return [...Map.groupBy(found, ({ kind }) => kind)].sort((one, other) => other[1].length - one[1].length);
}

function print(found: readonly Found[]): void {
  for (const [kind, own] of byKind(found)) {
    console.log(`${String(own.length).padStart(6)}  ${kind}`);
    for (const { page, block, bar, detail } of own.slice(0, SHOWN)) {
      const place = [page, block && `#${block}`, bar === undefined ? '' : ` bar ${Number(bar) + 1}`].join('');
      console.log(`        ${place}: ${detail}`);
    }
  }
}
