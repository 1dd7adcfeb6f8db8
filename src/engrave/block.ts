/** A score as a block of tiles: static HTML with inline SVG, and the same in words. */
import { signatureOf } from '../harmony/key.ts';
import type { Score } from '../score/score.ts';
import { itemAt } from '../values/checked.ts';
import { phraseRuns } from './above/phrase-row.ts';
import { PART } from './classes.ts';
import { type Clef, clefOf } from './clef.ts';
import type { Column } from './columns.ts';
import { bandRuns } from './lanes/band.ts';
import type { Neighbours } from './lanes/lane-flow.ts';
import { LANES, layoutOf, STAFF_HEIGHT } from './layout.ts';
import { escapeText, n } from './markup.ts';
import { drawRowHead, headWidths, METER_STEP, mostSigns, type RowHead, startRoom } from './row-head.ts';
import { COLUMNS, type RowTile, rowClass, rowStarts } from './rows.ts';
import type { Segment } from './segment.ts';
import { type MeasuredBar, measureBars } from './segments.ts';
import { place, type Spacing } from './spacing.ts';
import { drawStaff } from './staff/draw.ts';
import { findJoins } from './staff/join.ts';
import { layTile } from './staff/tile.ts';
import { blockName, blockWords } from './text-alternative.ts';
import { drawTile, type Tile } from './tile.ts';
import { pickupFitsIn, tileWidthFor } from './tile-width.ts';
import { verseNumbers } from './under/verse-numbers.ts';

export { glyphSheet } from './sheet.ts';

/** How a block is engraved. */
export interface EngraveOptions {
  /** Begins every id in the block, so it must be unique in its page: letters, digits, `-` and `_`. */
  readonly id: string;
}

/** An engraved block: markup for the page, and what it needs there. */
export interface EngravedBlock {
  readonly html: string;
  /** What the page's sheet must hold for it (sheet.ts). */
  readonly glyphs: readonly string[];
}

/** A block as drawn, before it is put on a page or into a file. */
export interface DrawnBlock {
  /** Index into `ROW_WIDTHS`. */
  readonly size: number;
  readonly clef: Clef;
  /** One for each key signature of the block, that of its beginning first. */
  readonly rowHeads: readonly RowHead[];
  /** For each tile, which of them is the head of a row that begins with it. */
  readonly headOf: readonly number[];
  /** A pickup, which is in the first row before its tiles. */
  readonly pickup: Tile | undefined;
  /** Whether the pickup is in the row of the first tile even where that has a row to itself. */
  readonly pickupFits: boolean;
  readonly tiles: readonly Tile[];
  /** At which numbers of tiles to a row each tile begins one: classes of {@link rowClass}. */
  readonly begins: readonly string[];
  /** What the page's sheet must hold for it (sheet.ts). */
  readonly glyphs: readonly string[];
}

/** Pickups have widths of so many pixels; `grid-sizes.css` has the same. */
const PICKUP_STEP = 8;
/** A pickup longer than this has a tile like any other bar. */
const WIDEST_PICKUP = 144;

/** Draws the tiles of a score and the head of its rows. */
export function drawBlock(score: Score): DrawnBlock {
  const clef = clefOf(score);
  const bars = measureBars(score, clef);
  const first = bars[0];
  const pickupWidth = first && score.pickup !== undefined && bars.length > 1 ? pickupWidthOf(first) : undefined;
  const inTiles = pickupWidth === undefined ? bars : bars.slice(1);
  const signs = mostSigns(score);
  const needed = {
    ...headWidths(signs, score.meter),
    pickup: pickupWidth ?? 0,
    least: Math.max(0, ...inTiles.map(({ whole }) => whole.least)),
  };
  const { size, width } = tileWidthFor(needed);
  const pickupFits = pickupWidth !== undefined && pickupFitsIn(needed, width);
  const inRows = inTiles.flatMap((bar) => [...bar.within(width)]);
  const measured = pickupWidth === undefined || !first ? inRows : [first.whole, ...inRows];
  const all = measured.map(({ segment }) => segment);
  const lead = all.length - inRows.length;
  const widthOf = (index: number): number => (index < lead ? (pickupWidth ?? width) : width);
  const placed = measured.map(({ segment, needs }, index) =>
    placeSegment(segment, {
      ...needs,
      width: widthOf(index),
      beyond: segment.closes ? 0 : (measured[index + 1]?.needs.before ?? 0),
    }),
  );
  const staves = all.map((segment, index) => layTile(segment.staff, itemAt(placed, index), widthOf(index)));
  const layout = layoutOf(score);
  const begins = beginsOf(all.slice(lead), lead > 0, pickupFits);
  const beginsAt = (index: number): string => (index < lead ? FIRST : (begins[index - lead] ?? FIRST));
  const laid = all.map((segment, index) => ({ segment, xs: itemAt(placed, index), width: widthOf(index) }));
  const bands = bandRuns(laid, score.mouth);
  const phrases = phraseRuns(score, laid);
  const numbered = all.map((segment, index) => ({ segment, begins: beginsAt(index) }));
  const drawn = all.map((segment, index) => {
    const next = all[index + 1];
    const neighbours: Neighbours = {
      before: lastSound(all[index - 1]),
      after: next && {
        column: itemAt(next.columns, 0),
        x: widthOf(index) + itemAt(itemAt(placed, index + 1), 0),
      },
    };
    const joins = findJoins(itemAt(staves, index), staves[index - 1], staves[index + 1]);
    const parts = { segment, xs: itemAt(placed, index), drawing: drawStaff(itemAt(staves, index), joins) };
    return drawTile(parts, neighbours, {
      score,
      layout,
      width: widthOf(index),
      begins: beginsAt(index),
      nextBegins: beginsAt(index + 1),
      band: itemAt(bands, index),
      verseNumbers: verseNumbers(numbered, index, layout.words),
      phrases: itemAt(phrases, index),
    });
  });
  const signatures = [...new Set([score, ...score.bars].map(({ key }) => signatureOf(key)))];
  const rowHeads = signatures.map((signature) => drawRowHead(signature, clef, score.meter, signs));
  return {
    size,
    clef,
    rowHeads,
    headOf: inRows.map(({ segment }) => signatures.indexOf(signatureOf(segment.bar.key))),
    pickup: lead > 0 ? drawn[0] : undefined,
    pickupFits,
    tiles: drawn.slice(lead),
    begins,
    glyphs: [...new Set([...rowHeads.flatMap((head) => head.glyphs), ...drawn.flatMap(({ glyphs }) => glyphs)])].sort(),
  };
}

/** Engraves a score as HTML: a grid of tiles and the text alternative. `id` begins all ids in it. */
export function engraveBlock(score: Score, { id }: EngraveOptions): EngravedBlock {
  const drawn = drawBlock(score);
  const { size, rowHeads, pickup, pickupFits, glyphs } = drawn;
  const rowHead = itemAt(rowHeads, 0);
  const headId = (index: number): string => `${id}-head${index || ''}`;
  const headAt = (index: number, isFirst: boolean): Tile => {
    const body = { staff: `<use href="#${headId(index)}"/>`, lanes: `<use href="#${id}-lanes"/>` };
    return rowHeadTile(itemAt(rowHeads, index), body, isFirst);
  };
  const first = tileMarkup(headAt(0, true), `row-head first ${FIRST}`);
  const start = pickup ? `<div class="row-start">${first}${tileMarkup(pickup, 'tile')}</div>` : first;
  const tiles = drawn.tiles.map((tile, index) => {
    const begins = drawn.begins[index];
    // The first row has its head already.
    const hasHead = begins === NO_ROW || (index === 0 && !pickup);
    const other = headAt(itemAt(drawn.headOf, index), false);
    return (hasHead ? '' : tileMarkup(other, `row-head ${begins}`)) + tileMarkup(tile, 'tile');
  });
  const classes = [
    'tab-block',
    `w${size + 1}`,
    `k${mostSigns(score)}`,
    `m${Math.ceil(rowHead.meter.width / METER_STEP)}`,
    ...(pickup ? ['has-pickup', `q${pickup.width / PICKUP_STEP}`, ...(pickupFits ? ['pickup-fits'] : [])] : []),
  ];
  const html =
    `<div class="${classes.join(' ')}" role="group" aria-label="${escapeText(blockName(score))}">` +
    `<div class="tab-grid" aria-hidden="true">` +
    `<svg class="sheet" width="0" height="0"><defs>${rowHeads.map(({ staff }, index) => `<g id="${headId(index)}">${staff}</g>`).join('')}<g id="${id}-lanes">${rowHead.lanes}</g></defs></svg>` +
    `${start}${tiles.join('')}</div>` +
    `${blockWords(score, drawn.clef)}</div>`;
  return { html, glyphs };
}

/** The rows of a block as a picture has them: four tiles to each. */
export function pictureRows(drawn: DrawnBlock): Tile[][] {
  const { rowHeads, headOf, pickup, tiles } = drawn;
  const headAt = (index: number, isFirst: boolean): Tile => {
    const head = itemAt(rowHeads, index);
    return rowHeadTile(head, head, isFirst);
  };
  const rows: Tile[][] = [[headAt(0, true), ...(pickup ? [pickup] : [])]];
  tiles.forEach((tile, index) => {
    if (index > 0 && drawn.begins[index]?.endsWith('4')) rows.push([headAt(itemAt(headOf, index), false)]);
    rows.at(-1)?.push(tile);
  });
  return rows;
}

/** What never begins a row: the first bar, where a pickup is always beside it. */
const NO_ROW = 'bn';
/** Where the first tile of a block is: it begins a row at any number of tiles. */
const FIRST = `b${COLUMNS.join('')}`;

/** The row head as a tile of its own: that of the first row has the meter beside it. `body` is what is drawn in each part. */
function rowHeadTile(rowHead: RowHead, body: Pick<RowHead, 'staff' | 'lanes'>, isFirst: boolean): Tile {
  const { meter, above, below, between } = rowHead;
  const beside = (markup: string): string =>
    isFirst ? `<g transform="translate(${n(rowHead.width)})">${markup}</g>` : '';
  return {
    bar: undefined,
    width: rowHead.width + (isFirst ? meter.width : 0),
    heights: { over: above, between, staffBelow: below, lanesAbove: 0, lanesBelow: 0 },
    glyphs: [],
    parts: [
      { kind: 'staff', height: STAFF_HEIGHT, body: body.staff + beside(meter.staff) },
      { kind: 'lanes', height: LANES.height, body: body.lanes + beside(meter.lanes) },
    ],
  };
}

/** Heights are kept in steps, which `grid-sizes.css` has classes for. */
const HEIGHT_STEP = 2;
const steps = (height: number): number => Math.ceil(Math.max(0, height) / HEIGHT_STEP);

function tileMarkup({ parts, bar, width, heights }: Tile, classes: string): string {
  const { over, between, staffBelow, lanesAbove, lanesBelow } = heights;
  const data = bar === undefined ? '' : ` data-bar="${bar}"`;
  const drawn = parts.map(({ kind, height, body }) => {
    const svg = `<svg class="${PART[kind]}" viewBox="0 0 ${n(width)} ${height}">${body}</svg>`;
    return kind === 'lanes' ? `<div class="lanes up${steps(lanesAbove)} dn${steps(lanesBelow)}">${svg}</div>` : svg;
  });
  // Words keep staff and lanes apart; they have a height of their own.
  const gap = parts.some(({ kind }) => kind === 'words') ? 0 : steps(between);
  return `<div class="${classes} ov${steps(over)} bt${gap} dn${steps(staffBelow)}"${data}>${drawn.join('')}</div>`;
}

/** In rows of two a pickup has the first place, in rows of four it is beside the head. */
function beginsOf(segments: readonly Segment[], hasPickup: boolean, pickupFits: boolean): string[] {
  const tiles = rowTiles(segments);
  const starts = COLUMNS.map((columns) => rowStarts(tiles, columns, hasPickup && columns === 2 ? 1 : 0));
  const besidePickup = COLUMNS.map((columns, at) => new Set(columns === 4 ? [] : itemAt(starts, at)));
  return tiles.map((_, index) => {
    if (index > 0 || !hasPickup) return rowClass(starts, index);
    return pickupFits ? NO_ROW : rowClass(besidePickup, index);
  });
}

function pickupWidthOf({ whole: { segment, least } }: MeasuredBar): number | undefined {
  const isRest = segment.columns[0]?.note.wholeBar && segment.chords.length === 0;
  const needed = isRest ? 2 * PICKUP_STEP : least;
  const width = Math.ceil(needed / PICKUP_STEP) * PICKUP_STEP;
  return width > WIDEST_PICKUP ? undefined : width;
}

function placeSegment(segment: Segment, spacing: Spacing): number[] {
  if (segment.columns[0]?.note.wholeBar) return [(spacing.width + startRoom(segment)) / 2];
  // Places are kept to a tenth: finer ones would only make equal bars differ.
  return place(spacing).map((x) => Math.round(x * 10) / 10);
}

/** What rows are made by: which tiles begin a part, and which belong to one bar. */
const rowTiles = (segments: readonly Segment[]): RowTile[] =>
  segments.map((segment, index) => {
    let end = index;
    while (segments[end]?.closes === false) end++;
    return {
      part: index > 0 && segment.opens && segment.bar.part !== undefined,
      signature: segment.changes.signature === true,
      more: end - index,
    };
  });

const lastSound = (segment: Segment | undefined): Column | undefined =>
  segment?.columns.findLast((column) => column.first) ?? segment?.columns.at(-1);
