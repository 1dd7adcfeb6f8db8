/** One tile: a bar (or half of one) with its staff, lanes, words and lines, at a fixed width. */
import type { Event, Score } from '../score/score.ts';
import { equals, toNumber } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { CLASS } from './classes.ts';
import { type ChordMark, type Column, chordWidth, glidesInto, type Segment, SIZE, soundIn, WAVE } from './columns.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { drawSound, glideLine, halfWidth, heightsOf, heldLine, middleOf } from './lanes.ts';
import type { Layout } from './layout.ts';
import { escapeText, n } from './markup.ts';
import { meterDigits, meterWidth } from './row-head.ts';
import { CHORD_GAP } from './spacing-needs.ts';
import type { StaffDrawing } from './staff.ts';
import { use } from './string-context.ts';
import { textWidth } from './text-width.ts';

/** What a tile is drawn from. */
export interface TileParts {
  readonly segment: Segment;
  /** The middle of each column. */
  readonly xs: readonly number[];
  readonly drawing: StaffDrawing;
}

/** What a tile must know of its neighbours: the sounds and roles just before it and just after it. */
export interface Neighbours {
  readonly before: Column | undefined;
  readonly after: Column | undefined;
}

/** What all tiles of a block share. */
export interface TileSettings {
  readonly score: Score;
  readonly layout: Layout;
  readonly width: number;
  /** Begins the ids of events. */
  readonly id: string;
}

/** One bar, or a part of one, as drawn. */
export interface Tile {
  readonly markup: string;
  readonly glyphs: readonly string[];
}

/** Draws one tile: chords, staff, lanes, words and bar lines. */
export function drawTile(parts: TileParts, neighbours: Neighbours, settings: TileSettings): Tile {
  const { segment, drawing } = parts;
  const { layout, width } = settings;
  const glyphs = new Set(drawing.glyphs);
  const events = drawEvents(parts, neighbours, settings, glyphs);
  const body =
    drawLines(parts, settings, glyphs) +
    drawHead(parts, settings) +
    (drawing.joins ? `<g class="${CLASS.joins}">${drawing.joins}</g>` : '') +
    events +
    drawBand(parts, neighbours, settings);
  const view = `0 ${layout.top} ${width} ${layout.bottom - layout.top}`;
  const markup = `<svg class="tile" viewBox="${view}" data-bar="${segment.bar.index}">${body}</svg>`;
  return { markup, glyphs: [...glyphs] };
}

/** Each event's head, numbers, label, word and syllable in one group, so that one class lights them all. */
function drawEvents(parts: TileParts, neighbours: Neighbours, settings: TileSettings, glyphs: Set<string>): string {
  const { segment, xs, drawing } = parts;
  const { id, layout } = settings;
  let drawn = '';
  for (let index = 0; index < segment.columns.length; ) {
    const column = itemAt(segment.columns, index);
    let next = index + 1;
    while (next < segment.columns.length && segment.columns[next]?.note.event === column.note.event) next++;
    let inner = drawing.notes.slice(index, next).join('');
    if (column.event.kind === 'sound') {
      for (const role of column.roles) if (role) glyphs.add(`s${role.degree}`);
      inner += drawFlow(index, next, parts, neighbours, settings);
      inner += drawSound(column, itemAt(xs, index), layout);
      inner += drawWord(column, itemAt(xs, index), layout) + drawLyric(index, parts, settings);
    }
    const { index: number } = column.event;
    drawn += `<g class="${CLASS.event}" id="${id}-e${number}" data-event="${number}">${inner}</g>`;
    index = next;
  }
  return drawn;
}

/** The lines that leave a sound and reach it: a tie's line, a glide's slant. */
function drawFlow(
  index: number,
  next: number,
  { segment, xs }: TileParts,
  neighbours: Neighbours,
  settings: TileSettings,
): string {
  const { layout, width } = settings;
  const column = itemAt(segment.columns, index);
  const sound = soundIn(column);
  const x = itemAt(xs, index);
  const heights = heightsOf(sound, layout);
  const half = halfWidth(column) + 1.5;
  const follower = segment.columns[next];
  const target = follower ?? neighbours.after;
  let drawn = '';
  // A tie that comes over the edge, or a glide that does.
  if (index === 0 && neighbours.before && sound.tied) drawn += heldLine(0, x - half, heights);
  if (index === 0 && neighbours.before && glidesInto(neighbours.before, column)) {
    const from = (middleOf(heightsOf(soundIn(neighbours.before), layout)) + middleOf(heights)) / 2;
    drawn += glideLine([0, from], [x - half, middleOf(heights)]);
  }
  const tied = target?.event.kind === 'sound' && target.event.tied;
  const gliding = target !== undefined && glidesInto(column, target);
  // A note that continues before it glides is held to its last head, and glides from there.
  const lastX = next - index > 1 ? itemAt(xs, next - 1) : x + half;
  if (tied) {
    const end = follower ? itemAt(xs, next) - halfWidth(follower) - 1.5 : width;
    drawn += heldLine(x + half, end, heights);
  } else if (gliding) {
    drawn += heldLine(x + half, lastX, heights);
  } else if (next - index > 1 || sound.tied) {
    // The last of a tie: its line ends with the note, short of what comes next.
    const end = follower
      ? itemAt(xs, next) - (follower.event.kind === 'sound' ? halfWidth(follower) + 4 : 12)
      : width - 10;
    drawn += heldLine(x + half, end, heights);
  }
  if (gliding) {
    const to = middleOf(heightsOf(soundIn(target), layout));
    const from = middleOf(heights);
    drawn += follower
      ? glideLine([lastX, from], [itemAt(xs, next) - halfWidth(follower) - 1.5, to])
      : glideLine([lastX, from], [width, (from + to) / 2]);
  }
  return drawn;
}

function drawWord(column: Column, x: number, layout: Layout): string {
  if (!column.word || layout.word === undefined) return '';
  if (column.word === WAVE)
    return `<path class="${CLASS.stroke}" d="M${n(x - 11)} ${n(layout.word - 3)}q2.75-5 5.5 0t5.5 0 5.5 0 5.5 0"/>`;
  return `<text class="${CLASS.markWord}" x="${n(x)}" y="${n(layout.word)}">${escapeText(column.word)}</text>`;
}

function drawLyric(index: number, { segment, xs }: TileParts, { layout, width }: TileSettings): string {
  const column = itemAt(segment.columns, index);
  const lyric = column.event.kind === 'sound' ? column.event.lyric : undefined;
  if (!lyric || layout.lyric === undefined) return '';
  const x = itemAt(xs, index);
  const y = layout.lyric;
  if (lyric.extends) {
    const before = segment.columns.slice(0, index).findLastIndex((own) => own.first && own.event.kind === 'sound');
    const last = before < 0 ? undefined : soundIn(itemAt(segment.columns, before)).lyric;
    const from =
      before < 0 ? 0 : itemAt(xs, before) + (last && !last.extends ? textWidth(last.text, SIZE.lyric) / 2 + 2 : 6);
    return x + 6 - from < 3 ? '' : `<path class="${CLASS.stroke}" d="M${n(from)} ${n(y)}H${n(x + 6)}"/>`;
  }
  const half = textWidth(lyric.text, SIZE.lyric) / 2;
  let drawn = `<text class="${CLASS.lyric}" x="${n(x)}" y="${n(y)}">${escapeText(lyric.text)}</text>`;
  if (lyric.hyphen) {
    const after = segment.columns.findIndex(
      (own, at) => at > index && own.event.kind === 'sound' && own.first && syllable(own) !== undefined,
    );
    const to =
      after < 0
        ? Math.min(width - 4, x + half + 12)
        : itemAt(xs, after) - textWidth(syllable(segment.columns[after]) ?? '', SIZE.lyric) / 2;
    drawn += `<text class="${CLASS.lyric}" x="${n((x + half + to) / 2)}" y="${n(y)}">-</text>`;
  }
  return drawn;
}

function syllable(column: Column | undefined): string | undefined {
  const lyric = column?.event.kind === 'sound' ? column.event.lyric : undefined;
  return lyric && !lyric.extends ? lyric.text : undefined;
}

/** Staff lines, bar lines, the meter and the lanes' centre line. */
function drawLines({ segment }: TileParts, { score, layout, width }: TileSettings, glyphs: Set<string>): string {
  const { bar } = segment;
  // A little past both edges, so that no seam shows between tiles.
  const staff = [0, 10, 20, 30, 40].map((y) => `M-.3 ${y}H${n(width + 0.3)}`).join('');
  let drawn = `<path class="${CLASS.staffLines}" d="${staff}"/><path class="${CLASS.laneLine}" d="M-.3 ${n(layout.centre)}H${n(width + 0.3)}"/>`;
  const dots = (x: number): string => {
    const dot = glyphAt(0xe1e7);
    glyphs.add(dot.code);
    return use(dot.code, x, 15) + use(dot.code, x, 25);
  };
  const thin: number[] = [];
  const thick: number[] = [];
  if (segment.opens && bar.repeatStart) {
    thick.push(2);
    thin.push(6.5);
    drawn += dots(10);
  }
  if (segment.closes) {
    if (bar.repeatEnd) drawn += dots(width - 14);
    if (bar.repeatEnd || bar.close === 'final') {
      thick.push(width - 2);
      thin.push(width - 6.5);
    } else if (bar.close === 'double') thin.push(width - 5, width - 1);
    else thin.push(width - 0.7);
    const tick = layout.centre;
    drawn += `<path class="${CLASS.laneLine}" d="M${n(width - 0.7)} ${n(tick - 8)}V${n(tick + 8)}"/>`;
  }
  const upright = (xs: readonly number[]): string => xs.map((x) => `M${n(x)}-.5V40.5`).join('');
  if (thin.length > 0) drawn += `<path class="${CLASS.barLine}" d="${upright(thin)}"/>`;
  if (thick.length > 0) drawn += `<path class="${CLASS.thickBarLine}" d="${upright(thick)}"/>`;
  if (segment.meter) {
    const digits = meterDigits(score.meter, (bar.repeatStart ? 15 : 4) + meterWidth(score.meter) / 2);
    for (const glyph of digits.glyphs) glyphs.add(glyph);
    drawn += digits.markup;
  }
  return drawn;
}

/** What is above the staff: part, ending, chord symbols and the bar's number. */
function drawHead(parts: TileParts, { score, layout, width }: TileSettings): string {
  const { segment } = parts;
  const { bar } = segment;
  let drawn = '';
  if (segment.opens && bar.part !== undefined && layout.part !== undefined) {
    drawn += `<text class="${CLASS.partName}" x="1" y="${n(layout.part)}">${escapeText(bar.part)}</text>`;
  }
  if (bar.ending !== undefined && layout.ending !== undefined) {
    const before = score.bars[bar.index - 1];
    const after = score.bars[bar.index + 1];
    const starts = segment.opens && before?.ending !== bar.ending;
    const ends = segment.closes && after?.ending !== bar.ending;
    const y = layout.ending;
    const left = starts ? `M2 ${n(y + 12)}V${n(y)}` : `M0 ${n(y)}`;
    drawn += `<path class="${CLASS.barLine}" d="${left}H${n(ends ? width - 3 : width)}${ends && bar.repeatEnd ? `v12` : ''}"/>`;
    if (starts) drawn += `<text class="${CLASS.smallText}" x="6" y="${n(y + 11)}">${bar.ending}.</text>`;
  }
  if (segment.opens && bar.number > 0)
    drawn += `<text class="${CLASS.smallText}" x="1" y="${n(layout.number)}">${bar.number}</text>`;
  return drawn + drawChords(parts, layout, width);
}

/** The corner that a bar's number takes. */
const numberRoom = (bar: number): number => (bar > 9 ? 16 : 11);

function drawChords(parts: TileParts, { chord: y }: Layout, width: number): string {
  const { segment } = parts;
  if (y === undefined) return '';
  // From the right: each may start no later than leaves room for the next.
  const latest: number[] = [];
  let end = width - 2;
  for (const chord of segment.chords.toReversed()) {
    end -= chordWidth(chord);
    latest.unshift(end);
    end -= CHORD_GAP;
  }
  let earliest = segment.opens ? numberRoom(segment.bar.number) : 2;
  return segment.chords
    .map((chord, index) => {
      const x = Math.max(earliest, Math.min(chordX(chord, parts, width), itemAt(latest, index)));
      earliest = x + chordWidth(chord) + CHORD_GAP;
      const numeral = chord.numeral
        ? `<tspan class="${CLASS.chordNumeral}" dx="4">${escapeText(chord.numeral)}</tspan>`
        : '';
      return `<text class="${CLASS.chordName}" data-chord="${chord.index}" x="${n(x)}" y="${n(y)}">${escapeText(chord.name)}${numeral}</text>`;
    })
    .join('');
}

/** Over the note it begins with, or between two where it changes under a held one or a rest. */
function chordX({ onset, column }: ChordMark, { segment, xs }: TileParts, width: number): number {
  const note = segment.columns[column]?.note;
  const x = note?.wholeBar ? 14 : xs[column];
  if (!note || x === undefined) return 6;
  if (equals(note.onset, onset)) return x - 7;
  const next = xs[column + 1] ?? width;
  const share = (toNumber(onset) - toNumber(note.onset)) / toNumber(note.duration);
  return x + Math.max(0, share) * (next - x) - 7;
}

/** The embouchure: a plain band for lips, a hatched one for the tongue block, named where it changes. */
function drawBand({ segment, xs }: TileParts, { before }: Neighbours, { score, layout, width }: TileSettings): string {
  const y = layout.band;
  if (y === undefined) return '';
  let mouth = mouthOf(before?.event) ?? score.mouth;
  const runs: { mouth: string; from: number; named: boolean }[] = [
    { mouth, from: 0, named: segment.bar.index === 0 && segment.opens },
  ];
  segment.columns.forEach((column, index) => {
    const own = mouthOf(column.event);
    if (own === undefined || own === mouth) return;
    mouth = own;
    const from = index === 0 ? 0 : (itemAt(xs, index) + itemAt(xs, index - 1)) / 2;
    const last = runs.at(-1);
    if (last?.from === from) runs.pop();
    runs.push({ mouth, from, named: true });
  });
  return runs
    .map((run, index) => {
      const to = runs[index + 1]?.from ?? width;
      const label = textWidth(run.mouth, SIZE.small) + 6;
      const named = run.named && to - run.from > label + 8;
      const from = named ? run.from + label : run.from;
      const word = named
        ? `<text class="${CLASS.smallText}" x="${n(run.from + 3)}" y="${n(y + 3)}">${run.mouth}</text>`
        : '';
      const hatch =
        run.mouth === 'tongue' ? `<path class="${CLASS.tongueHatching}" d="M${n(from)} ${n(y)}H${n(to)}"/>` : '';
      // Past the tile's edges, like the staff lines.
      const ends = [from === 0 ? -0.3 : from, to === width ? width + 0.3 : to] as const;
      const line = (at: number): string => `M${n(ends[0])} ${n(at)}H${n(ends[1])}`;
      return `${word}${hatch}<path class="${CLASS.mouthBand}" d="${line(y - 3)}${line(y + 3)}"/>`;
    })
    .join('');
}

const mouthOf = (event: Event | undefined): string | undefined => (event?.kind === 'sound' ? event.mouth : undefined);
