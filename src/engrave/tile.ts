/** One tile: a bar, or a part of one, with all that is over, on and under its staff, at a fixed width. */
import { isSameEnding } from '../score/queries.ts';
import type { Score } from '../score/score.ts';
import { toNumber } from '../time/fraction.ts';
import { beatLength } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { drawPhrases, type PhraseRun } from './above/phrase-row.ts';
import { chordRow } from './chord-row.ts';
import { CLASS, type PartKind } from './classes.ts';
import { dynamicOf, SIZE, soundIn, WAVE } from './columns.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { type BandRun, drawBand } from './lanes/band.ts';
import { drawFlow, type Neighbours, NO_FLOW } from './lanes/lane-flow.ts';
import { drawSound, heightsOf, laneHeights, leftOfNumber, rightOfNumber } from './lanes/lanes.ts';
import { drawSignRow } from './lanes/sign-row.ts';
import { ABOVE, BAND, CHORDS, ENDING, JUMPS, LANES, type Layout, PHRASES, STAFF_HEIGHT, WORDS } from './layout.ts';
import { escapeText, n, use } from './markup.ts';
import { drawNewMeter, startRoom } from './row-head.ts';
import type { PlacedSegment, Segment } from './segment.ts';
import type { InkBox } from './staff/box.ts';
import type { StaffDrawing } from './staff/draw.ts';
import { drawJumpSigns, drawRepeatedBar, inEvents } from './staff/jump-signs.ts';
import { linesOfText, textWidth } from './text-width.ts';
import { type TileHeights, tileHeights } from './tile-heights.ts';
import { baselineOf, drawText, heightOfLines, syllableOf } from './under/text-under.ts';
import type { VerseNumbers } from './under/verse-numbers.ts';

/** What a tile is drawn from. */
export interface TileParts extends PlacedSegment {
  readonly drawing: StaffDrawing;
}

/** What all tiles of a block share. */
export interface TileSettings {
  readonly score: Score;
  readonly layout: Layout;
  readonly width: number;
  /** At which numbers of tiles to a row this tile, and the next one, begin a row: part of a class (rows.ts). */
  readonly begins: string;
  readonly nextBegins: string;
  /** The embouchures of the tile (band.ts). */
  readonly band: readonly BandRun[];
  readonly verseNumbers: VerseNumbers;
  /** The brackets over the phrases of the tile (phrase-row.ts). */
  readonly phrases: readonly PhraseRun[];
}

/** One bar, or a part of one, as drawn. */
export interface Tile {
  readonly parts: readonly TilePart[];
  /** Its bar; undefined for a row head. */
  readonly bar: number | undefined;
  readonly width: number;
  readonly heights: TileHeights;
  readonly glyphs: readonly string[];
}

/** One of the pictures of a tile. They are under one another. */
export interface TilePart {
  readonly kind: PartKind;
  readonly height: number;
  readonly body: string;
}

/** Draws one tile: chords, staff, lanes, words and bar lines. */
export function drawTile(parts: TileParts, neighbours: Neighbours, settings: TileSettings): Tile {
  const { segment, drawing } = parts;
  const { layout, width } = settings;
  const glyphs = new Set(drawing.glyphs);
  const { bar } = segment;
  const chords = chordRow(parts, width);
  const lanesInk: InkBox[] = [];
  const drawn: TilePart[] = [
    drawAbove(segment, width),
    { kind: 'jumps', height: JUMPS.height, body: drawJumpSigns(segment, width, settings.score.bars, glyphs) },
    { kind: 'ending', height: ENDING.height, body: drawEnding(segment, settings) },
    { kind: 'phrases', height: PHRASES.height, body: drawPhrases(settings.phrases) },
    { kind: 'chords', height: CHORDS.height, body: chords.markup },
    { kind: 'staff', height: STAFF_HEIGHT, body: drawStaffPart(parts, settings, glyphs) },
    drawSigns(parts, width, glyphs),
    { kind: 'words', height: WORDS.height, body: eventGroups(parts, (index) => drawWord(index, parts)) },
    { kind: 'lanes', height: LANES.height, body: drawLanes(parts, neighbours, settings, glyphs, lanesInk) },
    { kind: 'band', height: BAND.height, body: layout.hasBand ? drawBand(settings.band, width) : '' },
    drawSyllables(parts, settings),
    drawWords(parts, settings),
  ];
  return {
    parts: drawn.filter(({ body }) => body !== ''),
    bar: bar.index,
    width,
    heights: tileHeights({
      chords: chords.ink,
      staff: drawing.ink,
      lanes: lanesInk,
    }),
    glyphs: [...glyphs],
  };
}

/** The signs that the staff has, for readers without it. */
function drawSigns(parts: TileParts, width: number, glyphs: Set<string>): TilePart {
  const { height, columns } = drawSignRow(parts, width, glyphs);
  return {
    kind: 'signs',
    height,
    body: eventGroups(parts, (index, next) => columns.slice(index, next).join('')),
  };
}

function drawSyllables(parts: TileParts, { width }: TileSettings): TilePart {
  const line = { of: syllableOf, y: baselineOf(0), className: CLASS.syllable, width };
  const body = eventGroups(parts, (index) => drawText(index, parts, line));
  return { kind: 'syllables', height: heightOfLines(1), body };
}

function drawWords(parts: TileParts, { layout, width, verseNumbers }: TileSettings): TilePart {
  let lines = verseNumbers.lines;
  const body = eventGroups(parts, (index) =>
    layout.words
      .map(({ of }, line) => {
        const drawn = drawText(index, parts, { of, y: baselineOf(line), className: CLASS.lyric, width });
        if (drawn) lines = Math.max(lines, line + 1);
        return drawn;
      })
      .join(''),
  );
  return { kind: 'lyrics', height: heightOfLines(lines), body: verseNumbers.markup + body };
}

/** What is drawn for each event, in a group of its own, so that one class lights all that belongs to it. */
function eventGroups({ segment }: TileParts, draw: (index: number, next: number) => string): string {
  let drawn = '';
  for (let index = 0; index < segment.columns.length; ) {
    const column = itemAt(segment.columns, index);
    let next = index + 1;
    while (next < segment.columns.length && segment.columns[next]?.note.event === column.note.event) next++;
    const inner = draw(index, next);
    if (inner) drawn += inEvents(column.again ?? [column.event.index], inner);
    index = next;
  }
  return drawn;
}

function drawStaffPart(parts: TileParts, settings: TileSettings, glyphs: Set<string>): string {
  const { drawing } = parts;
  const { width, begins, nextBegins } = settings;
  // A little past both edges, so that no seam shows between tiles.
  const lines = [0, 10, 20, 30, 40].map((y) => `M-.3 ${y}H${n(width + 0.3)}`).join('');
  const joins =
    drawing.joins +
    variant(CLASS.joined, nextBegins, drawing.crossing.whole) +
    variant(CLASS.cut, nextBegins, drawing.crossing.out) +
    variant(CLASS.cut, begins, drawing.coming);
  return (
    `<path class="${CLASS.staffLines}" d="${lines}"/>` +
    drawBarLines(parts, settings, [0, 40], glyphs) +
    drawMeter(parts.segment, 'staff', glyphs) +
    (joins ? `<g class="${CLASS.joins}">${joins}</g>` : '') +
    eventGroups(parts, (index, next) => drawing.notes.slice(index, next).join(''))
  );
}

/** What shows only where the tile behind an edge begins a row, or only where it does not. */
export const variant = (kind: string, begins: string, drawn: string): string =>
  drawn ? `<g class="${kind} ${begins}">${drawn}</g>` : '';

function drawMeter({ changes: { meter } }: Segment, part: 'staff' | 'lanes', glyphs: Set<string>): string {
  if (!meter) return '';
  const drawn = drawNewMeter(meter);
  for (const glyph of drawn.glyphs) glyphs.add(glyph);
  return drawn[part];
}

/** The bar lines of a tile, with the dots of repeats, from one height to another. */
function drawBarLines(
  { segment }: TileParts,
  { width }: TileSettings,
  [top, bottom]: readonly [number, number],
  glyphs: Set<string>,
): string {
  const { bar } = segment;
  const middle = (top + bottom) / 2;
  const thin: number[] = [];
  const thick: number[] = [];
  let drawn = '';
  const dots = (x: number): string => {
    const dot = glyphAt(0xe1e7);
    glyphs.add(dot.code);
    return use(dot.code, x, middle - 5) + use(dot.code, x, middle + 5);
  };
  if (segment.opens && bar.repeatStart) {
    // A new meter is before the sign.
    const left = startRoom(segment);
    thick.push(left + 2);
    thin.push(left + 6.5);
    drawn += dots(left + 10);
  }
  if (segment.closes) {
    if (bar.repeatEnd) drawn += dots(width - 14);
    if (bar.repeatEnd || segment.close === 'final') {
      thick.push(width - 2);
      thin.push(width - 6.5);
    } else if (segment.close === 'double') thin.push(width - 5, width - 1);
    else thin.push(width - 0.7);
  }
  const upright = (xs: readonly number[]): string =>
    xs.map((x) => `M${n(x)} ${n(top - 0.5)}V${n(bottom + 0.5)}`).join('');
  if (thin.length > 0) drawn += `<path class="${CLASS.barLine}" d="${upright(thin)}"/>`;
  if (thick.length > 0) drawn += `<path class="${CLASS.thickBarLine}" d="${upright(thick)}"/>`;
  return drawn;
}

/** Adds what it draws to `ink`, and to `glyphs` what that needs. */
function drawLanes(
  parts: TileParts,
  neighbours: Neighbours,
  settings: TileSettings,
  glyphs: Set<string>,
  ink: InkBox[],
): string {
  const { segment, xs } = parts;
  const { layout, width, begins, nextBegins } = settings;
  const { centre } = layout.lanes;
  const events = eventGroups(parts, (index, next) => {
    const column = itemAt(segment.columns, index);
    if (column.again) return drawRepeatedBar(itemAt(xs, index), centre, glyphs, ink);
    if (column.event.kind !== 'sound') return '';
    for (const role of [...column.roles, column.grace?.role]) if (role) glyphs.add(`s${role.degree}`);
    const x = itemAt(xs, index);
    const flow =
      column.first || index === 0 ? drawFlow([index, next], parts, neighbours, layout.lanes, width) : NO_FLOW;
    ink.push(...flow.ink);
    if (column.first) {
      const { left, right } = column.reach;
      const { top, bottom } = laneHeights(column, layout.lanes.blowBends);
      ink.push({ left: x - left, right: x + right, top: centre + top, bottom: centre + bottom });
    }
    return (
      flow.within +
      variant(CLASS.joined, nextBegins, flow.whole) +
      variant(CLASS.cut, nextBegins, flow.out) +
      variant(CLASS.cut, begins, flow.coming) +
      drawLength([index, next], parts, settings) +
      drawSound(column, x, layout.lanes)
    );
  });
  const tick = segment.closes
    ? `<path class="${CLASS.laneLine}" d="M${n(width - 0.7)} ${n(centre - 8)}V${n(centre + 8)}"/>`
    : '';
  return (
    `<path class="${CLASS.laneLine}" d="M-.3 ${n(centre)}H${n(width + 0.3)}"/>${tick}` +
    `<g class="${CLASS.lanesOnly}">${drawBeats(parts, settings)}${drawBarLines(parts, settings, [centre - LANE_BAR, centre + LANE_BAR], glyphs)}</g>` +
    drawMeter(segment, 'lanes', glyphs) +
    events
  );
}

/** How long a sound lasts, where no staff says so: a line up to where the next one begins. */
function drawLength(
  [index, next]: readonly [number, number],
  { segment, xs }: TileParts,
  settings: TileSettings,
): string {
  const { width, layout } = settings;
  const column = itemAt(segment.columns, index);
  // What is held on is drawn so in any view.
  if (next - index > 1 || soundIn(column).tied || !column.first || column.note.tiedToNext) return '';
  const follower = segment.columns[next];
  const from = itemAt(xs, index) + rightOfNumber(column) + 2;
  const to = follower
    ? itemAt(xs, next) - (follower.event.kind === 'sound' ? leftOfNumber(follower) + 4 : 6)
    : width - 8;
  if (to - from < 3) return '';
  const lines = heightsOf(column, layout.lanes).map((y) => `M${n(from)} ${n(y)}H${n(to)}`);
  return `<path class="${CLASS.heldLine} ${CLASS.lanesOnly}" d="${lines.join('')}"/>`;
}

/** How far bar lines reach from the centre line of the lanes. */
const LANE_BAR = 14;
/** No beat is marked so near to the middle of a number, which marks it as well. */
const NUMBER_ROOM = 17;

/** A mark on the centre line for each beat on which nothing begins. */
function drawBeats({ segment, xs }: TileParts, { layout, width }: TileSettings): string {
  const beat = toNumber(beatLength(segment.bar.meter));
  const [first, last] = [segment.columns[0], segment.columns.at(-1)];
  if (!first || !last || first.note.wholeBar) return '';
  const onsets = segment.columns.map(({ note }) => toNumber(note.onset));
  const end = toNumber(last.note.onset) + toNumber(last.note.duration);
  const { centre } = layout.lanes;
  const marks: string[] = [];
  for (let number = Math.ceil(itemAt(onsets, 0) / beat - 1e-9); number * beat < end - 1e-9; number++) {
    const at = number * beat;
    const index = onsets.findLastIndex((onset) => onset <= at + 1e-9);
    const [from, to] = [itemAt(onsets, index), onsets[index + 1] ?? end];
    const [fromX, toX] = [itemAt(xs, index), xs[index + 1] ?? width];
    const x = fromX + ((at - from) / (to - from)) * (toX - fromX);
    const isNumber = segment.columns.some(
      ({ event }, at) => event.kind === 'sound' && Math.abs(itemAt(xs, at) - x) < NUMBER_ROOM,
    );
    if (!isNumber) marks.push(`M${n(x)} ${n(centre - 4)}V${n(centre + 4)}`);
  }
  return marks.length > 0 ? `<path class="${CLASS.laneLine}" d="${marks.join('')}"/>` : '';
}

function drawWord(index: number, { segment, xs }: TileParts): string {
  const { word, event } = itemAt(segment.columns, index);
  const x = itemAt(xs, index);
  if (!word) return '';
  if (word === WAVE)
    return `<path class="${CLASS.stroke}" d="M${n(x - 11)} ${n(WORDS.baseline - 3)}q2.75-5 5.5 0t5.5 0 5.5 0 5.5 0"/>`;
  const dynamic = event.kind === 'sound' ? dynamicOf(event.marks) : undefined;
  const letter = dynamic === undefined ? '' : `<tspan class="${CLASS.dynamic}">${dynamic}</tspan>`;
  const rest = escapeText(word.slice(dynamic?.length ?? 0));
  return `<text class="${CLASS.markWord}" x="${n(x)}" y="${WORDS.baseline}">${letter}${rest}</text>`;
}

/** Words over a pickup, which is narrow, go on over the bar after it. */
const LEAST_LINE = 180;

/** The name of a part and words to the player, line by line. */
function drawAbove({ bar, opens, changeWords }: Segment, width: number): TilePart {
  const lines = [
    ...(bar.part === undefined ? [] : [{ text: bar.part, of: CLASS.partName }]),
    ...linesOfText(changeWords, Math.max(width - 6, LEAST_LINE), SIZE.direction).map((text) => ({
      text,
      of: CLASS.change,
    })),
    ...linesOfText(bar.direction ?? '', Math.max(width - 6, LEAST_LINE), SIZE.direction).map((text) => ({
      text,
      of: CLASS.direction,
    })),
  ];
  const shown = opens ? lines : [];
  const body = shown.map(
    ({ text, of }, at) =>
      `<text class="${of}" x="1" y="${ABOVE.baseline + at * ABOVE.line}">${escapeText(text)}</text>`,
  );
  return { kind: 'part', height: ABOVE.line * shown.length, body: body.join('') };
}

/** The bracket of an ending, or how often a repeat is played. */
function drawEnding({ bar, opens, closes }: Segment, { score, width }: TileSettings): string {
  if (bar.times !== undefined && closes) {
    const times = `${bar.times}×`;
    const x = width - 4 - textWidth(times, SIZE.small);
    return `<text class="${CLASS.smallText}" x="${n(x)}" y="${n(ENDING.line + 12)}">${times}</text>`;
  }
  if (bar.endings === undefined) return '';
  const starts = opens && !isSameEnding(score.bars[bar.index - 1], bar);
  const ends = closes && !isSameEnding(bar, score.bars[bar.index + 1]);
  const y = ENDING.line;
  const left = starts ? `M2 ${n(y + 12)}V${n(y)}` : `M0 ${n(y)}`;
  const line = `<path class="${CLASS.barLine}" d="${left}H${n(ends ? width - 3 : width)}${ends && bar.repeatEnd ? `v12` : ''}"/>`;
  return starts
    ? `${line}<text class="${CLASS.smallText}" x="6" y="${n(y + 12)}">${bar.endings.join(', ')}.</text>`
    : line;
}
