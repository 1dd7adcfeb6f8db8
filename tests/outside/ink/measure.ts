/**
 * Prints what is wrong with the music of a built site, with places to look at:
 *
 *     node tests/outside/ink/measure.ts [--site FOLDER] [--width N]… [--text 100|200] [--theme dark] [--print]
 *         [--harp KEY] [--music lanes|staff] [--pages PATTERN] [--only PATTERN] [--json FILE] [--crops FOLDER]
 *         [--random BLOCKS] [--seed S]
 *
 * Without `--site` the demo course is built first, or with `--random` a course of so many random blocks. `--width` is of the
 * window, or with `--print` of the paper between its margins. `--harp` has the page engrave every block for that harp. `--pages`
 * says which pages are measured, `--only` which kinds of fault are listed. `--crops` writes pictures of the first places of each
 * kind. `--limits` alone prints what limits.ts would be today.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { host } from '../../../src/publish/host.ts';
import { CHROMIUM } from '../../browser/chromium.ts';
import { cropFaults } from './crops.ts';
import type { Found } from './page.ts';
import { writeRandomCourse } from './random-course.ts';
import { measureSite, nameOfSetting, pagesOf, type Served, type Setting } from './site.ts';
import { type Counts, countsOf, most, RANDOM_BLOCKS, SUITES, TWO_LESSONS } from './suites.ts';

const { values } = parseArgs({
  options: {
    site: { type: 'string' },
    width: { type: 'string', multiple: true, default: ['820'] },
    text: { type: 'string', default: '100' },
    theme: { type: 'string', default: 'light' },
    print: { type: 'boolean', default: false },
    harp: { type: 'string' },
    music: { type: 'string' },
    random: { type: 'string' },
    seed: { type: 'string', default: '1' },
    limits: { type: 'boolean', default: false },
    pages: { type: 'string', default: '^lessons/' },
    only: { type: 'string', default: '' },
    json: { type: 'string' },
    crops: { type: 'string' },
  },
});
/** Places of a kind that are listed and cropped. */
const SHOWN = 3;

const scratch = mkdtempSync(join(tmpdir(), 'reedway-ink-'));
const browser = await chromium.launch(CHROMIUM);
try {
  if (values.limits) await printLimits();
  else await printFaults();
} finally {
  await browser.close();
  rmSync(scratch, { recursive: true, force: true });
}

async function printFaults(): Promise<void> {
  const folder = values.site ?? build(values.random === undefined ? undefined : Number(values.random));
  const only = new RegExp(values.only);
  const measures: Record<string, unknown> = {};
  await served(folder, new RegExp(values.pages), async (site) => {
    for (const width of values.width) {
      const setting: Setting = {
        width: Number(width),
        text: Number(values.text),
        theme: values.theme === 'dark' ? 'dark' : 'light',
        medium: values.print ? 'print' : 'screen',
        harp: values.harp,
        music: values.music === 'lanes' || values.music === 'staff' ? values.music : undefined,
      };
      const started = performance.now();
      const measured = await measureSite(browser, site, setting);
      const seconds = ((performance.now() - started) / 1000).toFixed(1);
      const found = measured.found.filter(({ kind }) => only.test(kind));
      const size = `${measured.blocks} blocks, ${Math.round(measured.height)} px high`;
      console.log(`\n${nameOfSetting(setting)}: ${size}, ${seconds} s`);
      print(found);
      measures[nameOfSetting(setting)] = { ...measured, found };
      if (!values.crops) continue;
      const crops = values.width.length > 1 ? join(values.crops, width) : values.crops;
      const some = byKind(found).flatMap(([, own]) => own.slice(0, SHOWN));
      await cropFaults(browser, site.address, setting, some, crops);
    }
  });
  if (values.json) writeFileSync(values.json, JSON.stringify(measures, null, 1));
}

/** What limits.ts would be for the engraver as it is. */
async function printLimits(): Promise<void> {
  const limits: Record<string, Counts> = {};
  for (const [name, settings] of Object.entries(SUITES)) {
    const folder = build(name === 'random' ? RANDOM_BLOCKS : undefined);
    const wanted = name === 'twoLessons' ? TWO_LESSONS.join('|') : '^lessons/';
    await served(folder, new RegExp(wanted), async (site) => {
      const counts: Counts[] = [];
      for (const setting of settings) {
        const { found, height } = await measureSite(browser, site, setting);
        console.error(`${name}, ${nameOfSetting(setting)}: ${Math.ceil(height)} px high`);
        counts.push(countsOf(found, setting));
      }
      limits[name] = most(counts);
    });
  }
  console.log(JSON.stringify(limits, null, 2));
}

/** Builds the demo course, or a course of so many random blocks, unless it is there already. */
function build(random: number | undefined): string {
  const folder = join(scratch, random === undefined ? 'demo' : 'random');
  if (existsSync(folder)) return folder;
  const course = join(scratch, 'course');
  if (random !== undefined) writeRandomCourse(course, random, Number(values.seed));
  const args = ['src/command/reedway.ts', 'build', ...(random === undefined ? [] : [course]), '--out', folder];
  // What is said of the blocks is of no interest, unless nothing could be built.
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return folder;
}

async function served(folder: string, wanted: RegExp, use: (site: Served) => Promise<void>): Promise<void> {
  const { server, address } = await host(folder, '/', 0);
  await use({ address, pages: pagesOf(folder, wanted) });
  server.close();
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
