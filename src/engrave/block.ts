/** A score as a block of tiles: static HTML with inline SVG, and the same in words. */
import { signatureOf } from '../harmony/key.ts';
import type { Score } from '../score/score.ts';
import { clefOf } from './clef.ts';
import type { Column, Segment } from './columns.ts';
import { type Layout, layoutOf } from './layout.ts';
import { escapeText } from './markup.ts';
import { drawRowHead, type RowHead } from './row-head.ts';
import { COLUMNS, rowStarts } from './rows.ts';
import { measureBars } from './segments.ts';
import { place } from './spacing.ts';
import { spacingNeeds } from './spacing-needs.ts';
import { staffPlan } from './staff-plan.ts';

export { glyphSheet } from './sheet.ts';

import { itemAt } from '../values/checked.ts';
import { drawStaff, type StaffDrawing, type StaffPlan } from './staff.ts';
import { blockName, blockWords } from './text-alternative.ts';
import { drawTile, type Tile } from './tile.ts';
import { TILE_WIDTHS, tileSizeFor } from './tile-width.ts';

/**
 * Stores drawings between calls, and perhaps between runs. A key holds everything its drawing depends on but this
 * program itself: drawings stored on disk must be kept apart for each state of `src/engrave` and of VexFlow.
 */
export interface TileCache {
  get(key: string): string | undefined;
  set(key: string, tile: string): void;
}

/** How a block is engraved. */
export interface EngraveOptions {
  /** Begins every id in the block, so it must be unique in its page: letters, digits, `-` and `_`. */
  readonly id: string;
  readonly cache?: TileCache;
}

/** An engraved block: markup for the page, and what it needs there. */
export interface EngravedBlock {
  readonly html: string;
  /** What the page's sheet must hold for it (sheet.ts). */
  readonly glyphs: readonly string[];
}

/** A block as drawn, before it is put on a page or into a file. */
export interface DrawnBlock {
  /** Index into {@link TILE_WIDTHS}. */
  readonly size: number;
  readonly layout: Layout;
  readonly rowHead: RowHead;
  readonly tiles: readonly Tile[];
  /** For each number of tiles in a row of {@link COLUMNS}, the tiles that begin one. */
  readonly rowStarts: readonly ReadonlySet<number>[];
  /** What the page's sheet must hold for it (sheet.ts). */
  readonly glyphs: readonly string[];
}

/** Draws the tiles of a score and the head of its rows. */
export function drawBlock(score: Score, { id, cache = new Map() }: EngraveOptions): DrawnBlock {
  const clef = clefOf(score);
  const bars = measureBars(score);
  const size = tileSizeFor(Math.max(0, ...bars.map((bar) => bar.least)));
  const width = itemAt(TILE_WIDTHS, size);
  const segments = bars.flatMap((bar) => bar.within(width));

  const placed = segments.map((segment) => ({ segment, xs: placeSegment(segment, width) }));
  const parts = placed.map(({ segment, xs }, index) => {
    const plan = staffPlan({
      segment,
      xs,
      width,
      clef,
      before: lastOf(segments[index - 1]),
      after: segments[index + 1]?.columns[0],
    });
    return { segment, xs, drawing: drawingOf(plan, cache) };
  });
  const layout = layoutOf(
    score,
    segments,
    parts.map((part) => part.drawing),
    clef,
  );
  const rowHead = drawRowHead(score.key, clef, layout);
  const rows = segments.map((segment, index) => ({
    part: index > 0 && segment.opens && segment.bar.part !== undefined,
    pickup: segment.bar.index === 0 && score.pickup !== undefined && segment.closes,
    more: restOfBar(segments, index),
  }));
  const tiles = parts.map((part, index) => {
    const neighbours = { before: lastOf(segments[index - 1]), after: segments[index + 1]?.columns[0] };
    return drawTile(part, neighbours, { score, layout, width, id });
  });
  return {
    size,
    layout,
    rowHead,
    tiles,
    rowStarts: COLUMNS.map((columns) => rowStarts(rows, columns)),
    glyphs: [...new Set([...rowHead.glyphs, ...tiles.flatMap(({ glyphs }) => glyphs)])].sort(),
  };
}

/** Engraves a score as HTML: a grid of SVG tiles and the text alternative. `id` begins all ids in it. */
export function engraveBlock(score: Score, options: EngraveOptions): EngravedBlock {
  const { id } = options;
  const drawn = drawBlock(score, options);
  const { size, layout, rowHead, glyphs } = drawn;
  const view = `0 ${layout.top} ${rowHead.width} ${layout.bottom - layout.top}`;
  const tiles = drawn.tiles.map((tile, index) => {
    const shown = COLUMNS.filter((_, at) => drawn.rowStarts[at]?.has(index)).map((columns) => ` l${columns}`);
    return `<svg class="row-head${shown.join('')}" viewBox="${view}"><use href="#${id}-row-head"/></svg>${tile.markup}`;
  });

  const html =
    `<div class="tab-block w${size + 1} k${Math.abs(signatureOf(score.key))}" role="group" aria-label="${escapeText(blockName(score))}">` +
    `<div class="tab-grid" aria-hidden="true">` +
    `<svg class="sheet" width="0" height="0"><defs><g id="${id}-row-head">${rowHead.markup}</g></defs></svg>` +
    `${tiles.join('')}</div>` +
    `${blockWords(score)}</div>`;
  return { html, glyphs };
}

function placeSegment(segment: Segment, width: number): number[] {
  if (segment.columns[0]?.note.wholeBar) return [width / 2];
  return place({ ...spacingNeeds(segment), width });
}

/** How many tiles of the same bar follow one. */
function restOfBar(segments: readonly Segment[], index: number): number {
  let end = index;
  while (segments[end]?.closes === false) end++;
  return end - index;
}

const lastOf = (segment: Segment | undefined): Column | undefined =>
  segment?.columns.findLast((column) => column.first) ?? segment?.columns.at(-1);

function drawingOf(plan: StaffPlan, cache: TileCache): StaffDrawing {
  const key = JSON.stringify(plan);
  const kept = cache.get(key);
  if (kept !== undefined) return JSON.parse(kept) as StaffDrawing;
  const drawing = drawStaff(plan);
  cache.set(key, JSON.stringify(drawing));
  return drawing;
}
