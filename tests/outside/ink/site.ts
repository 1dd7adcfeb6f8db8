/** A built site in a browser, as a reader has it: its width, text size, light, medium, harp and what of the music is shown. */
import { readdirSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { type Found, type Known, measurePage } from './page.ts';

export interface Setting {
  /** Width of the window, or of the paper between its margins, in CSS pixels. */
  readonly width: number;
  /** The reader's text size in percent of the usual. */
  readonly text: number;
  readonly theme: 'light' | 'dark';
  readonly medium: 'screen' | 'print';
  /** The harp the reader chose, or undefined for the harp of each block. */
  readonly harp?: string | undefined;
  /** What of the music the reader chose to see, or undefined for staff and lanes. */
  readonly music?: 'lanes' | 'staff' | undefined;
}

/** CSS pixels between the margins of a page, which are 15 mm (src/site/styles/print.css). */
export const PAPER_WIDTHS = { A4: ((210 - 30) / 25.4) * 96, Letter: (8.5 - 30 / 25.4) * 96 } as const;

export const nameOfSetting = ({ width, text, theme, medium, harp, music }: Setting): string =>
  [
    `${Math.round(width)} px`,
    text !== 100 && `text ${text} %`,
    theme === 'dark' && 'dark',
    medium === 'print' && 'print',
    harp !== undefined && `${harp} harp`,
    music !== undefined && `${music} only`,
  ]
    .filter((part) => part !== false)
    .join(', ');

/** A page in that setting, as yet empty. Its text size is the browser's, which is what a reader sets. */
export async function openWindow(browser: Browser, setting: Setting, sharpness = 1): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: Math.round(setting.width), height: 900 },
    colorScheme: setting.theme,
    deviceScaleFactor: sharpness,
  });
  const page = await context.newPage();
  await page.emulateMedia({ media: setting.medium });
  if (setting.text !== 100) {
    const session = await context.newCDPSession(page);
    const standard = (16 * setting.text) / 100;
    await session.send('Page.setFontSizes', { fontSizes: { standard, fixed: (13 * setting.text) / 100 } });
  }
  if (setting.harp !== undefined) {
    const choice = JSON.stringify({ harp: setting.harp });
    await context.addInitScript((chosen) => localStorage.setItem('reedway-harp', chosen), choice);
  }
  if (setting.music !== undefined) {
    await context.addInitScript((chosen) => localStorage.setItem('reedway-music', chosen), setting.music);
  }
  return page;
}

/** Opens an address, and waits until its blocks are set for the reader's harp. */
export async function show(page: Page, address: string, { harp }: Setting): Promise<void> {
  await page.goto(address, { waitUntil: 'load' });
  if (harp === undefined || (await page.locator('harp-choice').count()) === 0) return;
  const status = page.locator('harp-choice [role="status"]');
  await status.filter({ hasText: /Showing|could not/ }).waitFor({ state: 'attached' });
  const said = await status.textContent();
  if (!said?.includes('Showing')) throw new Error(`${address} is not set for a ${harp} harp: ${said}`);
}

/** The pages of a site that match, as paths from its root, in order. */
export const pagesOf = (folder: string, wanted: RegExp): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.html'))
    .map((file) => file.replaceAll('\\', '/').replace(/index\.html$/, ''))
    .filter((path) => wanted.test(path))
    .sort();

export interface SiteMeasure {
  readonly found: readonly Found[];
  readonly blocks: number;
  /** Of all blocks together, in CSS pixels. */
  readonly height: number;
}

/** A site that is served, and those of its pages that are to be measured: paths from its root. */
export interface Served {
  readonly address: string;
  readonly pages: readonly string[];
}

/** Measures pages of a site. A block that several pages show is measured once. */
export async function measureSite(
  browser: Browser,
  { address, pages }: Served,
  setting: Setting,
): Promise<SiteMeasure> {
  const page = await openWindow(browser, setting);
  const known: Known = new Map();
  const found: Found[] = [];
  let [blocks, height] = [0, 0];
  for (const path of pages) {
    await show(page, address + path, setting);
    const measured = await measurePage(page, path, known);
    found.push(...measured.found);
    blocks += measured.heights.length;
    height += measured.heights.reduce((sum, own) => sum + own.height, 0);
  }
  await page.context().close();
  return { found, blocks, height };
}
