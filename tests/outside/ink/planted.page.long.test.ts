/** The ink checker finds what is planted in a drawing, and nothing in a clean one. */
import type { Page } from 'playwright-core';
import { describe, expect } from 'vitest';
import { withBrowser } from '../../browser/with-browser.ts';
import { drawnPage, event, glyph, hole, note, notesAt } from './bars.ts';
import { collectBlocks } from './collect.ts';
import { inked } from './collisions.ts';
import { columnsOf } from './durations.ts';
import { measurePage } from './page.ts';

const EVEN = [30, 95, 160, 225] as const;

interface Fixtures {
  /** Kinds of fault in a drawing, as often as each is found. */
  readonly faults: (inside: string, style?: string) => Promise<readonly string[]>;
  /** A page in a window of 400 pixels. */
  readonly page: Page;
}

const test = withBrowser.extend<Fixtures>({
  page: async ({ newPage }, use) => use(await newPage({ viewport: { width: 400, height: 400 } })),
  faults: async ({ page }, use) =>
    use(async (inside, style) => {
      await page.setContent(drawnPage(inside, style));
      const { found } = await measurePage(page, '');
      return found.map(({ kind }) => kind).sort();
    }),
});

describe('a clean drawing', () => {
  const CLEAN: Readonly<Record<string, string>> = {
    'four even notes in shapes': notesAt(...EVEN),
    'a sign before its note, and a curve short of it':
      notesAt(...EVEN) +
      event(4, glyph('e260', 83, 30)) +
      `<g class="j"><path class="v" d="M44 40Q60 50 78 40Q60 47 44 40Z"/></g>`,
    'a head on its ledger line': event(0, `<path class="s" d="M27 50H45"/>${note(30, 50)}`),
    'two shapes two pixels apart, whose boxes overlap': event(0, hole(40, 100, 3)) + event(1, hole(63, 90)),
    'a chord on one breath': event(0, hole(40, 90) + hole(40, 117)),
    'heads of a second on both sides of a stem': event(
      0,
      `<path class="s" d="M41.3 30V-10"/>${glyph('e0a4', 30, 30)}${glyph('e0a4', 41.5, 25)}`,
    ),
    'two beamed notes':
      event(0, glyph('e0a4', 30, 30)) +
      event(1, glyph('e0a4', 95, 30)) +
      `<g class="j"><path class="s" d="M41.3 30V0"/><path class="s" d="M106.3 30V0"/><path d="M40.5 0V-5H107V0Z"/></g>`,
    'two sloping beams, one under the other':
      event(0, glyph('e0a4', 30, 30)) +
      event(1, glyph('e0a4', 95, 40)) +
      `<g class="j"><path class="s" d="M41.3 30V0"/><path class="s" d="M106.3 40V20"/><path d="M40.5 0V-5L107 15V20Z"/><path d="M40.5 8V3L107 23V28Z"/></g>`,
    'a flat role on its breath': event(0, hole(40, 100).replace('class="m"', 'class="m f"')),
  };
  test.for(Object.entries(CLEAN))('%s', async ([, inside], { faults }) => {
    expect(await faults(inside)).toEqual([]);
  });
});

describe('planted ink', () => {
  const PLANTED: readonly (readonly [name: string, inside: string, kinds: readonly string[]])[] = [
    [
      'a curve through the sign before its note',
      notesAt(...EVEN) +
        event(4, glyph('e260', 83, 30)) +
        `<g class="j"><path class="v" d="M44 30Q66 14 93 28Q66 17 44 30Z"/></g>`,
      ['accidental × curve'],
    ],
    [
      'a curve over a stem',
      `${notesAt(...EVEN)}<g class="j"><path class="v" d="M60 20Q90 6 120 20Q90 9 60 20Z"/></g>`,
      ['curve × stem'],
    ],
    [
      'a curve through a flag',
      event(0, note(30, 30) + glyph('e240', 41, -5)) +
        `<g class="j"><path class="v" d="M46 12Q70-4 90 12Q70-1 46 12Z"/></g>`,
      ['curve × flag'],
    ],
    ['shapes of one chord on each other', event(0, hole(40, 90) + hole(40, 112)), ['role shape × role shape']],
    ['shapes of one chord a pixel apart', event(0, hole(40, 90) + hole(40, 115)), ['near: role shape × role shape']],
    [
      'shapes of neighbours a pixel apart',
      event(0, hole(40, 90)) + event(1, hole(65, 90)),
      ['near: role shape × role shape'],
    ],
    [
      'ledger lines of neighbours that join',
      event(0, `<path class="s" d="M27 50H45"/>${note(30, 50)}`) +
        event(1, `<path class="s" d="M44 50H62"/>${note(47, 50)}`),
      ['ledger line × ledger line'],
    ],
    [
      'a flag on a ledger line',
      event(0, `<path class="s" d="M27 50H52"/>${note(30, 50)}${glyph('e240', 41, 25)}`),
      ['flag × ledger line'],
    ],
    [
      'the number of a tuplet on its beam',
      event(0, glyph('e0a4', 30, 30)) +
        event(1, glyph('e0a4', 95, 30)) +
        `<g class="j"><path class="s" d="M41.3 30V0"/><path class="s" d="M106.3 30V0"/><path d="M40.5 0V-5H107V0Z"/>${glyph('e883', 70, -3)}</g>`,
      ['beam × tuplet figure'],
    ],
    [
      'a chord on the number of the bar',
      '<text class="i" x="2" y="-20">12</text><text class="c" x="10" y="-18">A7</text>',
      ['bar number × chord name'],
    ],
    ['a word on the staff', '<text class="k" x="100" y="14">slap</text>', ['mark word × staff lines']],
    ['a stem across a head', event(0, note(30, 30)) + event(1, '<path class="s" d="M36 40V0"/>'), ['notehead × stem']],
    ['two heads on each other', event(0, note(30, 30) + glyph('e0a4', 30, 25)), ['notehead × notehead']],
    [
      'what it does not know',
      `${event(0, note(30, 30))}<rect class="new" x="34" y="20" width="9" height="9"/>`,
      ['notehead × unknown', 'stem × unknown', 'unknown'],
    ],
  ];
  test.for(PLANTED)('%s', async ([, inside, kinds], { faults }) => {
    expect([...new Set(await faults(inside))]).toEqual(kinds);
  });

  test('is found where a picture’s edge is no border', async ({ page }) => {
    const tile = (x: number) =>
      `<svg class="tile" viewBox="0 -60 300 220" style="width:300px">${event(0, hole(x, 100))}</svg>`;
    await page.setContent(
      drawnPage('').replace(
        /<svg class="tile"[\s\S]*<\/svg>/,
        `<div style="display:grid;grid-template-columns:300px 300px">${tile(292)}${tile(8)}</div>`,
      ),
    );
    expect((await measurePage(page, '')).found.map(({ kind }) => kind)).toContain('role shape × role shape');
  });
});

describe('words and edges', () => {
  test('a text that is too small', async ({ faults }) => {
    expect(await faults('<text class="l" x="50" y="100">R</text>')).toEqual([]);
    expect(await faults('<text class="l" x="50" y="100">R</text>', '.l { font-size: 9px }')).toEqual([
      'small: role label',
    ]);
    // Sizes are of the drawing: it is shown at three quarters.
    const shrunk = '.tile { width: 225px; height: 165px }';
    expect(await faults('<text class="l" x="50" y="100">R</text>', shrunk)).toEqual(['small: role label']);
  });

  test('ink that its picture cuts off', async ({ faults }) => {
    const high = event(0, note(30, -60));
    expect(await faults(high)).toEqual(['outside: notehead', 'outside: stem']);
    expect(await faults(high, '.tile { overflow: hidden }')).toEqual(['clipped: notehead', 'clipped: stem']);
    expect(await faults(high, '.tab-grid { overflow-y: clip }')).toEqual(['clipped: notehead', 'clipped: stem']);
  });

  test('a page that is wider than its window, or a block that scrolls', async ({ faults }) => {
    expect(await faults(notesAt(...EVEN), '.tile { width: 500px }')).toContain('sideways');
    expect(await faults('', '.tab-grid { overflow-x: auto; width: 200px }')).toContain('sideways');
    expect(
      await faults(notesAt(...EVEN), '.tab-grid::after { content: ""; display: block; width: 500px; height: 1px }'),
    ).toEqual(['sideways']);
  });

  test('nothing that is not shown', async ({ faults }) => {
    const clash = event(0, hole(40, 90) + hole(40, 112));
    for (const hidden of ['.tile', '.tab-grid', '.e', '.m']) {
      expect(await faults(clash, `${hidden} { display: none }`), hidden).toEqual([]);
      expect(await faults(clash, `${hidden} { visibility: hidden }`), hidden).toEqual([]);
    }
  });
});

describe('spacing', () => {
  test('equal notes with unequal room', async ({ faults }) => {
    expect(await faults(notesAt(30, 95, 170, 235))).toEqual(['spacing: equal durations']);
    expect(await faults(notesAt(30, 95, 168, 233))).toEqual([]);
  });

  test('is measured from the heads on the usual side of a stem', async ({ faults }) => {
    // The second note is a second, whose upper head is to the right of the stem.
    const second = note(95, 30) + glyph('e0a4', 106.5, 25);
    const bar = event(0, note(30, 30)) + event(1, second) + event(2, note(160, 30)) + event(3, note(225, 30));
    expect(await faults(bar)).toEqual([]);
  });

  test('a longer note with less room than a shorter one', async ({ faults }) => {
    const half = (x: number) => note(x, 30).replace('e0a4', 'e0a3');
    expect(await faults(event(0, half(30)) + event(1, note(70, 30)) + event(2, note(130, 30)))).toEqual([
      'spacing: longer with less',
    ]);
    expect(await faults(event(0, half(30)) + event(1, note(110, 30)) + event(2, note(160, 30)))).toEqual([]);
  });

  test('a last note at the bar line', async ({ faults }) => {
    expect(await faults(notesAt(281))).toEqual(['spacing: last note at the bar line']);
    expect(await faults(notesAt(270))).toEqual([]);
  });

  test('durations are read from heads, stems, flags, beams, dots, rests and tuplets', async ({ page }) => {
    const beamed = `<g class="j">${[100, 120, 140].map((x) => `<path class="s" d="M${x + 11.3} 30V0"/>`).join('')}<path d="M110.5 0V-5H152V0Z"/>
      <path d="M130.5 8V3H152V8Z"/>${glyph('e883', 126, -10)}</g>`;
    await page.setContent(
      drawnPage(
        event(0, note(20, 30).replace('e0a4', 'e0a3') + glyph('e1e7', 36, 25)) +
          event(1, note(50, 30)) +
          event(2, glyph('e4e5', 75, 20)) +
          [100, 120, 140].map((x, index) => event(index + 3, glyph('e0a4', x, 30))).join('') +
          beamed +
          event(6, note(180, 30) + glyph('e240', 191, -5)) +
          event(7, glyph('e4e6', 220, 20)),
      ),
    );
    const [block] = await collectBlocks(page);
    const columns = block ? columnsOf(inked(block)) : [];
    expect(columns.map(({ name }) => name)).toEqual([
      '1/2.',
      '1/4',
      '1/4',
      '1/8 of 3',
      '1/16 of 3',
      '1/16 of 3',
      '1/8',
      '1/8',
    ]);
    expect(columns.map(({ rest }) => rest)).toEqual([false, false, true, false, false, false, false, true]);
    expect(columns[0]?.duration).toBe(0.75);
    expect(columns[3]?.duration).toBeCloseTo(1 / 12);
  });
});
