/** Prints what is wrong with the music of a built site: node tests/outside/ink/measure.ts [--site FOLDER] [--width N]… */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import { host } from '../../../src/publish/host.ts';
import { CHROMIUM } from '../../browser/chromium.ts';
import { collectBlocks } from './collect.ts';
import { collisionsIn, type Fault, inked } from './collisions.ts';
import { nameOfSetting, openWindow, pagesOf, type Setting } from './site.ts';

const { values } = parseArgs({
  options: {
    site: { type: 'string' },
    width: { type: 'string', multiple: true },
    text: { type: 'string', default: '100' },
    json: { type: 'string' },
    crops: { type: 'string' },
    pages: { type: 'string', default: '^lessons/' },
  },
});

function built(): string {
  const folder = join(mkdtempSync(join(tmpdir(), 'reedway-ink-')), 'site');
  execFileSync(process.execPath, ['src/command/reedway.ts', 'build', '--out', folder], { stdio: 'ignore' });
  return folder;
}

const site = values.site ?? built();
const { server, address } = await host(site, '/', 0);
const browser = await chromium.launch(CHROMIUM);
const all: (Fault & { page: string; block: string; origin: readonly number[] })[] = [];
for (const width of values.width ?? ['820']) {
  const setting: Setting = { width: Number(width), text: Number(values.text), theme: 'light', medium: 'screen' };
  const page = await openWindow(browser, setting);
  let [reading, finding] = [0, 0];
  for (const path of pagesOf(site, new RegExp(values.pages))) {
    const start = performance.now();
    await page.goto(address + path, { waitUntil: 'load' });
    const blocks = await collectBlocks(page);
    const middle = performance.now();
    for (const block of blocks)
      for (const fault of collisionsIn(inked(block)))
        all.push({ ...fault, page: path, block: block.name, origin: block.box });
    reading += middle - start;
    finding += performance.now() - middle;
  }
  console.log(nameOfSetting(setting), `read ${Math.round(reading)} ms, found in ${Math.round(finding)} ms`);
}
const kinds = [...Map.groupBy(all, ({ kind }) => kind)].sort((one, other) => other[1].length - one[1].length);
for (const [kind, faults] of kinds) {
  console.log(String(faults.length).padStart(6), kind);
  for (const { page, block, bar, detail } of faults.slice(0, 2))
    console.log(`         ${page}#${block} bar ${bar}: ${detail}`);
}
if (values.json) writeFileSync(values.json, JSON.stringify(all, null, 1));
if (values.crops) {
  mkdirSync(values.crops, { recursive: true });
  const page = await openWindow(
    browser,
    { width: Number(values.width?.[0] ?? 820), text: 100, theme: 'light', medium: 'screen' },
    3,
  );
  for (const [kind, faults] of kinds) {
    for (const [index, fault] of faults.slice(0, 3).entries()) {
      await page.goto(address + fault.page);
      const [x = 0, y = 0] = fault.origin;
      const [l, t, r, b] = fault.box;
      await page.evaluate(
        ([left, top, right, bottom]) => {
          const mark = document.createElement('div');
          mark.style.cssText = `position:absolute;z-index:9;outline:1px solid red;left:${left}px;top:${top}px;width:${right - left}px;height:${bottom - top}px`;
          document.body.append(mark);
        },
        [x + l - 2, y + t - 2, x + r + 2, y + b + 2] as const,
      );
      const clip = { x: Math.max(0, x + (l + r) / 2 - 80), y: y + (t + b) / 2 - 60, width: 160, height: 120 };
      await page.screenshot({
        path: join(values.crops, `${kind.replace(/[^a-z]+/g, '-')}-${index + 1}.png`),
        clip,
        fullPage: true,
      });
    }
  }
}
await browser.close();
server.close();
