/**
 * Our own decisions, read from the SVG of a block by where things are: of its markup the reader knows glyphs, straight lines and
 * curves. How many heads a written note has, and which are tied, is the score’s.
 */
import { engraveBlock } from '../../../src/engrave/block.ts';
import type { Score } from '../../../src/score/score.ts';
import { type WrittenBar, writtenScore } from '../../../src/score/written.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { glyphsIn, isHead, parsed } from '../../engrave/pictures.ts';
import { bendOf, type DecidedNote, type Decisions, type Side, stemSide, tipOf } from './decisions.ts';

/** What is drawn in a tile besides glyphs and bar lines. */
interface Ink {
  readonly stems: readonly { readonly x: number; readonly ends: readonly [number, number] }[];
  readonly beams: readonly { readonly from: number; readonly to: number }[];
  readonly curves: readonly Curve[];
}

interface Curve {
  readonly from: number;
  readonly to: number;
  readonly y: number;
  readonly side: Side;
  /** Whether it goes on in the next tile. */
  readonly crosses: boolean;
}

/** A written note in its tile. */
interface Drawn {
  readonly tile: number;
  readonly rest: boolean;
  readonly x: number;
  readonly heads: readonly number[];
}

/** As wide as heads on both sides of a stem. */
const HEAD_WIDTH = 24;
/** From a head’s middle to where its stem begins, at the most. */
const STEM_START = 5;
const HALF_SPACE = 5;

const isRest = (code: string): boolean => /^e4e[2-9a]$/.test(code);
const numbersOf = (path: Element): number[] => (path.getAttribute('d')?.match(/-?\d*\.?\d+/g) ?? []).map(Number);

function inkOf(staff: Element): Ink {
  const paths = (shape: RegExp): Element[] =>
    [...staff.querySelectorAll('path:not(.b, .B)')].filter((path) => shape.test(path.getAttribute('d') ?? ''));
  return {
    stems: paths(/^M\S+ \S+V\S+$/).map((path) => {
      const [x, from, to] = numbersOf(path);
      return { x: x ?? 0, ends: [from ?? 0, to ?? 0] };
    }),
    beams: paths(/^M\S+ \S+L\S+ \S+V\S+L\S+ \S+Z$/).map((path) => {
      const [from, , to] = numbersOf(path);
      return { from: from ?? 0, to: to ?? 0 };
    }),
    // A curve that comes from another row is read where it begins.
    curves: paths(/^M\S+ \S+C/).flatMap((path) => {
      if (path.closest('.X')) return [];
      const [from = 0, y = 0, , first = 0, , second = 0, to = 0, end = 0] = numbersOf(path);
      return [{ from, to, y, side: bendOf([y, end], [first, second]), crosses: path.closest('.x') !== null }];
    }),
  };
}

export function ourDecisions(score: Score): Decisions {
  const page = parsed(engraveBlock(score, { id: 'b' }).html);
  const staves = [...page.querySelectorAll('.tile svg.ps')];
  const inks = staves.map(inkOf);
  const bars = writtenScore(score);
  const written = bars.flatMap(({ notes }) => notes);
  const drawn = drawnNotes(score, bars, staves);
  const notes = drawn.map((own, index): DecidedNote => {
    const { tile, heads, x, rest } = own;
    const { stems, beams, curves } = itemAt(inks, tile);
    const following = drawn[index + 1];
    const beside = following?.tile === tile ? following.x : Number.POSITIVE_INFINITY;
    const line = stems.find(
      (stem) =>
        stem.x > x - 2 &&
        stem.x < Math.min(x + HEAD_WIDTH, beside - 2) &&
        heads.some((head) => stem.ends.some((end) => Math.abs(end - head) < STEM_START)),
    );
    const stem = rest || !line ? undefined : stemSide(line.ends, heads);
    const beam = line && beams.findIndex(({ from, to }) => from < line.x + 1 && to > line.x - 1);
    const joins = curves
      .filter((curve) => curve.from > x - 2 && curve.from < beside + 4)
      .filter((curve) => curve.crosses === (following?.tile !== tile))
      .toSorted((a, b) => a.y - b.y);
    // A tie joins every head; what there is without one is a slur.
    const tied = itemAt(written, index).tiedToNext;
    return {
      rest,
      places: heads.map((y) => y / HALF_SPACE),
      tip: stem && line && tipOf(line.ends, stem) / HALF_SPACE,
      x,
      tile,
      stem,
      beam: stem === undefined || beam === undefined || beam < 0 ? undefined : `${tile}-${beam}`,
      ties: tied ? joins.slice(0, heads.length).map(({ side }) => side) : [],
      slur: tied ? undefined : joins[0]?.side,
    };
  });
  return { notes, tuplets: tupletsOf(bars, drawn, staves) };
}

function drawnNotes(score: Score, bars: readonly WrittenBar[], staves: readonly Element[]): Drawn[] {
  const glyphs = staves.flatMap((staff, tile) =>
    glyphsIn(staff)
      .filter((glyph) => isHead(glyph) || isRest(glyph.code))
      .map((glyph) => ({ ...glyph, tile })),
  );
  let next = 0;
  const drawn = bars.flatMap(({ notes }, bar) =>
    notes.map((note): Drawn => {
      const event = score.bars[bar]?.events[note.event];
      const count = note.rest || event?.kind !== 'sound' ? 1 : event.notes.length;
      const own = glyphs.slice(next, next + count);
      next += count;
      const { tile, code } = present(own[0], 'a note that was drawn');
      return { tile, rest: isRest(code), x: Math.min(...own.map(({ x }) => x)), heads: own.map(({ y }) => y) };
    }),
  );
  if (next !== glyphs.length) throw new Error(`${glyphs.length - next} heads and rests are of no note`);
  return drawn;
}

function tupletsOf(bars: readonly WrittenBar[], drawn: readonly Drawn[], staves: readonly Element[]): Side[] {
  let first = 0;
  return bars.flatMap(({ notes, tuplets }) => {
    const start = first;
    first += notes.length;
    return tuplets.map((_, tuplet) => {
      const own = notes.flatMap((note, at) => (note.tuplet === tuplet ? [itemAt(drawn, start + at)] : []));
      const xs = own.map(({ x }) => x);
      const figure = present(
        glyphsIn(itemAt(staves, itemAt(own, 0).tile)).find(
          ({ code, x }) => /^e88/.test(code) && x > Math.min(...xs) - 2 && x < Math.max(...xs) + HEAD_WIDTH,
        ),
        'the figure of a tuplet',
      );
      return figure.y < Math.min(...own.flatMap(({ heads }) => heads)) ? 'above' : 'below';
    });
  });
}
