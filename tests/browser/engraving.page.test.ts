/** Engraved blocks in a real browser: rows at every width, nothing sideways, nothing on top of something else. */
import { readFileSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { engraveBlock, glyphSheet } from '../../src/engrave/block.ts';
import { textWidth } from '../../src/engrave/text-width.ts';
import { itemAt } from '../../src/values/checked.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { CHROMIUM } from './chromium.ts';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

const LIGHT =
  'harp: C\nslot: 1/4\n\n4 -4 5 4 | -5 5 -4 4 | 6 = 5 = | 4 = = = | 4 -4 5 4 | -5 5 -4 4 | 6 = 5 = | 4 = = = |]';
const DENSE = `harp: A
position: 2
form: twelve-bar
pickup: 1

-1 |
part: Chorus
{-3 -3' -2}2 {-3 4 -4}2 {5 -4 4}2 {-4' > -4 4}2 | -2 = = = . . -3'' > -3 | = = {-3 -3' -2}2 -3[tongue slap] -2[hand] . . | @tongue (1 4) = -(3 7) = -(1 2 3 4) = = = |
@lips -4 = -4' 4 6[fall] -5[dip] 4[vibrato] = | 6o = 8' 9' 10'' > 10 9 8 | -3'' = = > -3' = = -2 . | -2[shake 3] = = = = = = = |
-4 -4 -4' 4 -3 = = = | -3'' > -3' -3'' -2 1 = = . | {-2 -3' 4}2 {-4 -5 6}2 -6 6 -5 -4 | -2 = = "V7" = "I7" = . . |]
words: O hear that low and lone-some train it rolls
`;
const CHORUS = `harp: A
position: 2
form: twelve-bar
pickup: 1

-1 |
-2 . -3' -3 -4 = 4 . | -2 = = = . . . . | -2 . -3' -3 -4 = 4 . | -5 = -4 = -2 = . . |
-3'' = = -3' = = -2 . | -2 = = = . . . . | -2 . -3' -3 -4 = 4 . | -2 = = = . . . . |
-4 = -4' 4 = -3 . . | -3'' = = -3' = = -2 . | -2 . -3' -3 -4 = 4 . | -2 = = = = = . |]
`;
const CROWDED =
  "harp: C\nposition: 2\nslot: 1/16\nchords: I7\n\n-3' -3 -3' -3 -4' -4 -4' -4 -3' -3 -3' -3 -4' -4 -4' -4 | -2 = = = -3 = = = -4 = = = -5 = = = |]";

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await chromium.launch(CHROMIUM);
  page = await browser.newPage();
});
afterAll(() => browser.close());

async function show(texts: readonly string[], width: number): Promise<void> {
  const glyphs = new Set<string>();
  const blocks = texts.map((text, index) => {
    const engraved = engraveBlock(scoreOf(text), { id: `b${index}` });
    for (const glyph of engraved.glyphs) glyphs.add(glyph);
    return engraved.html;
  });
  const styles = [
    'src/site/styles/ground.css',
    'src/site/styles/page.css',
    'src/engrave/block.css',
    'src/engrave/grid.css',
    'src/engrave/grid-sizes.css',
  ].map(read);
  await page.setViewportSize({ width, height: 900 });
  await page.setContent(
    `<!doctype html><meta name="viewport" content="width=device-width"><style>${styles.join('\n')}</style>` +
      `<main class="page">${glyphSheet(glyphs)}${blocks.join('')}</main>`,
  );
}

/** Each row of a block as it is laid out: `L` for a row head, then the bars. */
const rows = (block: number): Promise<string[]> =>
  page.evaluate((at) => {
    const grid = document.querySelectorAll('.tab-grid')[at];
    const byTop = new Map<number, string[]>();
    for (const svg of grid?.querySelectorAll('.row-head, .tile') ?? []) {
      const box = svg.getBoundingClientRect();
      if (box.width === 0) continue;
      const top = Math.round(box.top);
      const row = byTop.get(top) ?? [];
      row.push(svg.classList.contains('row-head') ? 'L' : ((svg as SVGElement).dataset['bar'] ?? '?'));
      byTop.set(top, row);
    }
    return [...byTop.values()].map((row) => row.join(' '));
  }, block);

const sideways = (): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

const numberSize = (block: number): Promise<number> =>
  page.evaluate((at) => {
    const number = document.querySelectorAll('.tab-grid')[at]?.querySelector('.n:not(.w)');
    const tile = number?.closest('svg');
    if (!number || !tile) return 0;
    const scale = Number(tile.getScreenCTM()?.a);
    return Number.parseFloat(getComputedStyle(number).fontSize) * scale;
  }, block);

describe('engraved blocks', () => {
  test('stand two light bars to a row on a phone, and one dense bar', async () => {
    await show([LIGHT, DENSE], 360);
    expect(await rows(0)).toEqual(['L 0 1', 'L 2 3', 'L 4 5', 'L 6 7']);
    // A bar too crowded for the narrowest phone is broken at a beat.
    const dense = await rows(1);
    expect(dense.every((row) => /^L \d+$/.test(row))).toBe(true);
    expect([...new Set(dense)]).toEqual(Array.from({ length: 13 }, (_, bar) => `L ${bar}`));
    expect(dense.filter((row) => row === 'L 1').length).toBe(2);
    expect(await sideways()).toBe(0);
    expect(await numberSize(0)).toBeGreaterThanOrEqual(12.5);
    expect(await numberSize(1)).toBeGreaterThanOrEqual(12.5);
  });

  test('fit a screen of 320 pixels', async () => {
    await show([LIGHT, DENSE, CROWDED], 320);
    expect(await sideways()).toBe(0);
  });

  test('stand four to a row on a desktop, the pickup before the first', async () => {
    await show([LIGHT, CHORUS], 1440);
    expect(await rows(0)).toEqual(['L 0 1 2 3', 'L 4 5 6 7']);
    expect(await rows(1)).toEqual(['L 0 1 2 3 4', 'L 5 6 7 8', 'L 9 10 11 12']);
    expect(await sideways()).toBe(0);
  });

  test('stand two or four to a row on a tablet, as they are light or dense', async () => {
    await show([LIGHT, DENSE, CHORUS], 820);
    expect((await rows(0))[0]).toBe('L 0 1 2 3');
    expect((await rows(1)).slice(0, 3)).toEqual(['L 0', 'L 1 1', 'L 2 3']);
    expect((await rows(2)).slice(0, 3)).toEqual(['L 0 1', 'L 2 3', 'L 4 5']);
  });

  test('stand on paper as on a screen of its width, and no smaller', async () => {
    await show([LIGHT, DENSE], 680);
    const size = await numberSize(1);
    await page.emulateMedia({ media: 'print' });
    expect((await rows(0))[0]).toBe('L 0 1 2 3');
    expect((await rows(1))[1]).toBe('L 1 1');
    expect(await numberSize(1)).toBe(size);
    await page.emulateMedia({ media: 'screen' });
  });

  test('keep the tiles of a crowded bar together where a row holds them', async () => {
    await show([CROWDED], 1440);
    expect(await rows(0)).toEqual(['L 0 0', 'L 1']);
    await show([CROWDED], 360);
    expect(await rows(0)).toEqual(['L 0', 'L 0', 'L 1']);
  });

  test.each([360, 1440])('put nothing on top of something else at %i pixels', async (width) => {
    await show([LIGHT, DENSE, CROWDED], width);
    const clashes = await page.evaluate(() => {
      const found: string[] = [];
      for (const tile of document.querySelectorAll<SVGElement>('.tile')) {
        const scale = Number(tile.querySelector('svg')?.getScreenCTM()?.a);
        const shown = [...tile.querySelectorAll('text, use')].filter((one) => one.getBoundingClientRect().width > 0);
        const things = shown.map((element) => {
          const { left, right, top, bottom } = element.getBoundingClientRect();
          const text = element.tagName === 'text';
          // A line of text is a good deal higher than its letters.
          const air = text ? (bottom - top) * 0.22 : 0;
          const name = element.getAttribute('href') ?? `${element.textContent} (${element.getAttribute('class')})`;
          const event = element.closest<SVGElement>('.e')?.dataset['event'];
          return { text, name, left, right, top: top + air, bottom: bottom - air, event };
        });
        things.forEach((one, index) => {
          for (const other of things.slice(index + 1)) {
            const together = one.event !== undefined && one.event === other.event;
            const inMark = together && (one.name.startsWith('#s') || other.name.startsWith('#s'));
            // Heads of one stem touch each other. What their signs touch is measured in tests/outside/ink.
            if (inMark || (together && !one.text && !other.text)) continue;
            const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
            const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
            if (across > scale && down > scale) found.push(`bar ${tile.dataset['bar']}: ${one.name} on ${other.name}`);
          }
        });
      }
      return found;
    });
    expect(clashes).toEqual([]);
  });

  test('are set in a font as wide as it was estimated', async () => {
    const words = [
      'shake 5',
      'flutter',
      'hand',
      'G7',
      'C♯m7',
      'IV7',
      'lone-some',
      'Wandering',
      'The quick brown fox',
      '0123456789',
    ];
    const measured = await page.evaluate((texts) => {
      const pen = document.createElement('canvas').getContext('2d');
      if (!pen) return [];
      pen.font = '100px Arial, Helvetica, "Liberation Sans", Arimo, sans-serif';
      return texts.map((text) => pen.measureText(text).width);
    }, words);
    words.forEach((word, index) => {
      const share = textWidth(word, 100) / itemAt(measured, index);
      // Only the signs of sharp and flat come from whatever font has them.
      expect(Math.abs(share - 1), word).toBeLessThan(/[♭♯]/.test(word) ? 0.1 : 0.01);
    });
  });
});
