/** One bar's (or half bar's) notes on the staff, drawn through VexFlow at places that are already decided. */
import { Accidental, Beam, Dot, ModifierContext, StaveNote, Stem, TickContext } from 'vexflow/core';
import type { MarkSign } from '../score/mark.ts';
import { itemAt } from '../values/checked.ts';
import { CLASS } from './classes.ts';
import { glyphAt } from './glyphs/metrics.ts';
import { drawSigns } from './mark-signs.ts';
import { n } from './markup.ts';
import { StringContext, use } from './string-context.ts';
import { STAFF } from './vexflow.ts';

/** Everything the drawing depends on: its text is the key under which a drawing is kept. */
export interface StaffPlan {
  readonly width: number;
  readonly notes: readonly PlannedNote[];
  /** Positions of the notes under each beam. */
  readonly beams: readonly (readonly number[])[];
  readonly tuplets: readonly PlannedTuplet[];
}

/** A note, chord or rest of the staff, with its place. */
export interface PlannedNote {
  /** The middle of its notehead. */
  readonly x: number;
  /** 4 for a quarter. */
  readonly value: number;
  readonly dots: number;
  /** From the lowest up; empty for a rest. */
  readonly heads: readonly PlannedHead[];
  readonly marks: readonly MarkSign[];
  /** Whether a tie comes in over the tile's edge, goes to the next note, or out over the edge. */
  readonly tie?: 'next' | 'out' | undefined;
  readonly tieIn?: boolean | undefined;
  /** A slur to the next note, or out to a pitch of the next tile. */
  readonly glide?: 'next' | { readonly to: string } | undefined;
  readonly glideIn?: { readonly from: string } | undefined;
}

/** A notehead. */
export interface PlannedHead {
  /** Letter and octave as VexFlow takes them: `b/4` is the middle line. */
  readonly key: string;
  /** As VexFlow names it: `#`, `n`, `bb`. */
  readonly sign?: string | undefined;
  readonly role?: string | undefined;
}

/** A tuplet over some of the planned notes. */
export interface PlannedTuplet {
  readonly figure: number;
  readonly first: number;
  readonly last: number;
  readonly bracket: boolean;
}

/** Plain data, fit to be kept as JSON. */
export interface StaffDrawing {
  /** The markup of each note, without beams. */
  readonly notes: readonly string[];
  /** Beams with their stems, tuplets, ties and slurs. */
  readonly joins: string;
  /** How far it all reaches; the staff itself lies between 0 and 40. */
  readonly top: number;
  readonly bottom: number;
  readonly glyphs: readonly string[];
}

/** Half a notehead's height. */
const HEAD = 5;

/** The y of the middle line, b/4. */
const MIDDLE = 20;

/** The y of a pitch on the staff: 5 a step from the middle line. */
export function staffY(key: string): number {
  const [letter = '', octave] = key.split('/');
  return MIDDLE - 5 * ('cdefgab'.indexOf(letter) + 7 * Number(octave) - 34);
}

/** Draws a staff plan with VexFlow. */
export function drawStaff(plan: StaffPlan): StaffDrawing {
  const context = new StringContext();
  const stems = stemsOf(plan);
  const notes = plan.notes.map((note, index) => makeNote(note, itemAt(stems, index)));
  const beams = plan.beams.map((members) => new Beam(members.map((at) => itemAt(notes, at))));
  for (const [index, note] of notes.entries()) place(note, itemAt(plan.notes, index).x);
  for (const beam of beams) beam.postFormat();

  let [top, bottom] = [0, 40];
  const reach = (low: number, high: number): void => {
    top = Math.min(top, low);
    bottom = Math.max(bottom, high);
  };
  const extents = notes.map((note, index) => extentOf(note, itemAt(plan.notes, index)));
  for (const [low, high] of extents) reach(low, high);

  const drawn = notes.map((note, index) => {
    const planned = itemAt(plan.notes, index);
    context.headClasses(planned.heads.map((head) => head.role));
    note.setContext(context).drawWithStyle();
    return context.take() + drawSigns(note, planned, context, reach);
  });
  for (const beam of beams) beam.setContext(context).drawWithStyle();
  let joins = context.take();

  for (const tuplet of plan.tuplets) {
    const members = extents.slice(tuplet.first, tuplet.last + 1);
    const low = Math.min(-1, ...members.map(([high]) => high));
    joins += drawTuplet(tuplet, plan, low - 3, context);
    reach(low - 16, 0);
  }
  plan.notes.forEach((_, index) => {
    for (const curve of curvesOf(index, plan, notes)) {
      joins += drawCurve(curve);
      const ys = [curve.from.y, curve.to.y];
      reach(Math.min(...ys) - (curve.up ? 10 : 0), Math.max(...ys) + (curve.up ? 0 : 10));
    }
  });
  return { notes: drawn, joins, top: Math.floor(top), bottom: Math.ceil(bottom), glyphs: [...context.glyphs].sort() };
}

/**
 * Which way each stem goes: away from the middle line, under a beam as its notes lie together. VexFlow would find the same,
 * but builds a note again each time it turns one.
 */
function stemsOf({ notes, beams }: StaffPlan): number[] {
  const above = (at: number): number =>
    (notes[at]?.heads ?? []).reduce((sum, head) => sum + MIDDLE - staffY(head.key), 0);
  const stems = notes.map(({ heads }): number => {
    const [lowest, highest] = [heads[0], heads.at(-1)];
    if (!lowest || !highest) return Stem.UP;
    return 2 * MIDDLE - staffY(lowest.key) - staffY(highest.key) < 0 ? Stem.UP : Stem.DOWN;
  });
  for (const members of beams) {
    const way = members.reduce((sum, at) => sum + above(at), 0) >= 0 ? Stem.DOWN : Stem.UP;
    for (const at of members) stems[at] = way;
  }
  return stems;
}

/** VexFlow builds the heads of a new note twice, the first time when its stem is set: here that only turns the stem. */
class Note extends StaveNote {
  override setStemDirection(direction: number): this {
    this.stemDirection = direction;
    this.buildFlag();
    this.stem?.setDirection(direction);
    this.stem?.setExtension(this.getStemExtension());
    return this;
  }
}

function makeNote(planned: PlannedNote, stemDirection: number): StaveNote {
  const rest = planned.heads.length === 0;
  const keys = rest ? [planned.value === 1 ? 'd/5' : 'b/4'] : planned.heads.map((head) => head.key);
  const duration = planned.value === 0.5 ? '1/2' : String(Math.min(128, planned.value));
  const note = new Note({ keys, duration, dots: planned.dots, stemDirection, ...(rest ? { type: 'r' } : {}) });
  planned.heads.forEach((head, index) => {
    if (head.sign !== undefined) note.addModifier(new Accidental(head.sign), index);
  });
  if (planned.dots > 0) Dot.buildAndAttach([note], { all: true });
  return note;
}

/** Gives a note its place; VexFlow's own formatter, which spaces notes without knowing of the lanes, is left out. */
function place(note: StaveNote, x: number): void {
  const width = note.getGlyphWidth();
  const modifiers = new ModifierContext();
  note.addToModifierContext(modifiers);
  const context = new TickContext();
  context.addTickable(note);
  note.setStave(STAFF);
  context.preFormat();
  context.setX(x - width / 2);
}

function extentOf(note: StaveNote, planned: PlannedNote): [number, number] {
  const ys = note.getYs();
  let low = Math.min(...ys) - (planned.heads.length === 0 ? 14 : HEAD);
  let high = Math.max(...ys) + (planned.heads.length === 0 ? 14 : HEAD);
  planned.heads.forEach((head, index) => {
    const y = itemAt(ys, index);
    if (head.sign !== undefined) {
      low = Math.min(low, y - 17);
      high = Math.max(high, y + 14);
    }
  });
  if (planned.heads.length > 0 && note.hasStem()) {
    const { topY, baseY } = note.getStemExtents();
    low = Math.min(low, topY, baseY);
    high = Math.max(high, topY, baseY);
  }
  return [low, high];
}

/** The figure over a tuplet, always above the staff, with a bracket where no beam shows what belongs to it. */
function drawTuplet(tuplet: PlannedTuplet, plan: StaffPlan, y: number, context: StringContext): string {
  const scale = 0.8;
  const digits = [...String(tuplet.figure)].map((digit) => glyphAt(0xe880 + Number(digit)));
  const width = digits.reduce((sum, glyph) => sum + glyph.advance * scale, 0);
  const from = itemAt(plan.notes, tuplet.first).x - 7;
  const to = itemAt(plan.notes, tuplet.last).x + 7;
  const start = (from + to - width) / 2;
  let at = start;
  let drawn = '';
  for (const glyph of digits) {
    context.glyphs.add(glyph.code);
    drawn += use(glyph.code, at, y, undefined, scale);
    at += glyph.advance * scale;
  }
  if (tuplet.bracket && start - from > 5) {
    const bar = y - 6;
    drawn += `<path class="${CLASS.stroke}" d="M${n(from)} ${n(bar + 5)}V${n(bar)}H${n(start - 2)}M${n(at + 2)} ${n(bar)}H${n(to)}V${n(bar + 5)}"/>`;
  }
  return drawn;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Curve {
  readonly from: Point;
  readonly to: Point;
  readonly up: boolean;
  /** An open end lies on the tile's edge, where the neighbour's half begins. */
  readonly open?: 'from' | 'to';
}

const GAP = 6.5;
/** How deep a curve is where it crosses a tile's edge: both halves agree on it. */
const DEPTH = 5;

/** The ties and slurs that leave a note, and those that come to it over the tile's edge. They bend away from the stems. */
function curvesOf(index: number, plan: StaffPlan, notes: readonly StaveNote[]): Curve[] {
  const planned = itemAt(plan.notes, index);
  const next = plan.notes[index + 1];
  const curves: Curve[] = [];
  planned.heads.forEach(({ key }, head) => {
    const y = staffY(key);
    const inner = up(head, planned.heads.length, y, itemAt(notes, index));
    const outer = up(head, planned.heads.length, y, undefined);
    if (planned.tieIn) curves.push({ from: { x: 0, y }, to: { x: planned.x, y }, up: outer, open: 'from' });
    if (planned.tie === 'out')
      curves.push({ from: { x: planned.x, y }, to: { x: plan.width, y }, up: outer, open: 'to' });
    if (planned.tie === 'next' && next) curves.push({ from: { x: planned.x, y }, to: { x: next.x, y }, up: inner });
  });
  const own = planned.heads.at(-1)?.key;
  if (own === undefined) return curves;
  const y = staffY(own);
  if (planned.glideIn) {
    const middle = (y + staffY(planned.glideIn.from)) / 2;
    curves.push({ from: { x: 0, y: middle }, to: { x: planned.x, y }, up: middle <= 20, open: 'from' });
  }
  if (planned.glide === 'next') {
    const target = next?.heads.at(-1)?.key;
    const stems = [notes[index], notes[index + 1]].map((note) => note?.hasStem() && note.getStemDirection() === 1);
    if (next && target) {
      curves.push({
        from: { x: planned.x, y },
        to: { x: next.x, y: staffY(target) },
        up: !stems.every((stem) => stem),
      });
    }
  } else if (planned.glide) {
    const middle = (y + staffY(planned.glide.to)) / 2;
    curves.push({ from: { x: planned.x, y }, to: { x: plan.width, y: middle }, up: middle <= 20, open: 'to' });
  }
  return curves;
}

/** The side a tie takes: in a chord the upper heads' bend up, alone it goes where no stem is. */
function up(head: number, heads: number, y: number, note: StaveNote | undefined): boolean {
  if (heads > 1) return head >= heads / 2;
  return note?.hasStem() ? note.getStemDirection() === -1 : y <= 20;
}

function drawCurve({ from, to, up, open }: Curve): string {
  const side = up ? -1 : 1;
  const a = { x: open === 'from' ? from.x : from.x + 4, y: from.y + side * (open === 'from' ? GAP + DEPTH : GAP) };
  const b = { x: open === 'to' ? to.x : to.x - 4, y: to.y + side * (open === 'to' ? GAP + DEPTH : GAP) };
  const width = b.x - a.x;
  const depth = side * (open ? DEPTH : Math.min(8, 4 + width * 0.05));
  // A half curve runs level into the edge.
  const one = { x: a.x + width * 0.3, y: open === 'from' ? a.y : a.y + depth };
  const two = { x: b.x - width * 0.3, y: open === 'to' ? b.y : b.y + depth };
  const thick = side * 1.9;
  const at = (point: Point, shift = 0): string => `${n(point.x)} ${n(point.y + shift)}`;
  const back = open === 'to' ? `V${n(b.y + thick)}` : '';
  const start = open === 'from' ? thick : 0;
  return `<path d="M${at(a)}C${at(one)} ${at(two)} ${at(b)}${back}C${at(two, thick)} ${at(one, thick)} ${at(a, start)}Z"/>`;
}
