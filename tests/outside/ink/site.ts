/** A built site in a browser, as a reader has it: its width, text size, light and medium. */
import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Browser, Page } from 'playwright-core';

export interface Setting {
  /** Width of the window, or of the text on paper, in CSS pixels. */
  readonly width: number;
  /** The reader's text size in percent of the usual. */
  readonly text: number;
  readonly theme: 'light' | 'dark';
  readonly medium: 'screen' | 'print';
}

/** CSS pixels between the margins of a page, which are 15 mm (src/site/styles/print.css). */
export const PAPER_WIDTHS = { A4: ((210 - 30) / 25.4) * 96, Letter: (8.5 - 30 / 25.4) * 96 } as const;

export const nameOfSetting = ({ width, text, theme, medium }: Setting): string =>
  [
    `${Math.round(width)} px`,
    text !== 100 && `text ${text} %`,
    theme === 'dark' && 'dark',
    medium === 'print' && 'print',
  ]
    .filter(Boolean)
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
  return page;
}

/** The pages of a site that match, as paths from its root, in order. */
export function pagesOf(folder: string, wanted = /^lessons\//): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.html'))
    .map((file) => relative(folder, join(folder, file)).replace(/index\.html$/, ''))
    .filter((path) => wanted.test(path))
    .sort();
}
