/**
 * The breath lanes: blow numbers above a centre line, draw numbers below it, as the two reed plates lie. A bend hangs
 * its number a notch lower for each half step, and half a notch for a quarter step; the shape of its role is behind each number, the role's label beside it.
 */
import type { Role } from '../../harmony/role.ts';
import type { Breath, HoleNote } from '../../instrument/harp.ts';
import { endsInQuarter } from '../../instrument/quarter-step.ts';
import { itemAt, lastOf } from '../../values/checked.ts';
import { CLASS } from '../classes.ts';
import {
  type Column,
  GRACE_GAP,
  type GraceColumn,
  graceHalf,
  graceScale,
  isAttack,
  labelsApart,
  PARENTHESIS,
  SIZE,
  soundIn,
} from '../columns.ts';
import { escapeText, n } from '../markup.ts';
import { halfOfShape, numberOf, SHAPES, shapeClasses, shapeText, useShape } from '../role-shape.ts';
import { bowPath } from '../staff/parentheses.ts';
import { textWidth } from '../text-width.ts';

/** Heights of the breath lanes, in CSS pixels from the top of the row. */
export interface LaneLayout {
  /** The line between blow and draw. */
  readonly centre: number;
  /** The deepest blow bend: natural blow notes ride so many notches higher, so that it stays above the centre line. */
  readonly blowBends: number;
}

/** Between the shapes of two numbers of the same breath, their outlines included. */
const SHAPE_GAP = 3;
/** The width of a shape’s outline; `block.css` has the same. */
const OUTLINE = 2;
/** How much one half step of a bend moves a note. Like all sizes here in CSS pixels. */
export const NOTCH = 8;
/** From the centre line to the middle of a natural note. */
export const BLOW_RISE = 13;
/** From the centre line to the middle of a draw note that is not bent. */
export const DRAW_DROP = 17;
/** Room for a role’s label. */
export const LABEL_ROOM = 12;
/** Room for a ring around a number. */
const RING_ROOM = 8;
/** From a shape to the ends of its parentheses, how far they bend out from there, and half their height. */
const PARENTHESIS_GAP = 2;
const PARENTHESIS_BOW = 2.5;
const HALF_PARENTHESIS = 7.5;
/** From a shape to the middle of its ring. */
const RING_GAP = 5;

/** Where each hole of a sound is, from the lowest hole up: as far from the centre line as the shapes before it need. */
export function heightsOf(column: Column, layout: LaneLayout): number[] {
  const { breath, notes } = soundIn(column);
  const shapes = notes.map((_, index) => shapeOf(column.roles[index]));
  const natural = (index: number): number => {
    const { bend } = itemAt(notes, index);
    return naturalHeight(breath, bend, layout);
  };
  const heights = new Array<number>(notes.length);
  // Blow numbers are stacked upwards from the lowest hole, draw numbers downwards from the highest.
  const order = notes.map((_, index) => (breath === 'blow' ? index : notes.length - 1 - index));
  let before: number | undefined;
  for (const index of order) {
    const [own, last] = [itemAt(shapes, index), before === undefined ? undefined : shapes[before]];
    let y = natural(index);
    if (before !== undefined && last) {
      const edge = itemAt(heights, before);
      const gap = SHAPE_GAP + OUTLINE;
      y =
        breath === 'blow'
          ? Math.min(y, edge + last.top - gap - own.bottom)
          : Math.max(y, edge + last.bottom + gap - own.top);
    }
    heights[index] = y;
    before = index;
  }
  return heights;
}

/** The middle of a note that nothing is beside. */
const naturalHeight = (breath: Breath, bend: number, { centre, blowBends }: LaneLayout): number =>
  breath === 'blow' ? centre - BLOW_RISE - NOTCH * (blowBends - bend) : centre + DRAW_DROP + NOTCH * bend;

const NO_SHAPE = { top: -8, bottom: 8 };
const shapeOf = (role: Role | undefined): { readonly top: number; readonly bottom: number } =>
  role ? SHAPES[role.degree] : NO_SHAPE;
/** Half the width of a note’s shape with its number, or of the number alone. */
const halfOf = (note: HoleNote, role: Role | undefined): number => (role ? halfOfShape(role, numberOf(note)) : 7);

/** The middle of a sound's lane, for lines that lead to it. */
export const middleOf = (heights: readonly number[]): number => (itemAt(heights, 0) + lastOf(heights)) / 2;

/** Numbers, shapes and labels of one sound, at its column. */
export function drawSound(column: Column, x: number, layout: LaneLayout): string {
  const sound = soundIn(column);
  const heights = heightsOf(column, layout);
  const attack = isAttack(column);
  let drawn = '';
  if (attack && heights.length > 1) {
    drawn += `<path class="${CLASS.breathLine}" d="M${n(x)} ${n(itemAt(heights, 0))}V${n(lastOf(heights))}"/>`;
  }
  sound.notes.forEach((note, index) => {
    const y = itemAt(heights, index);
    const role = column.roles[index];
    drawn += attack
      ? drawNote(note, { breath: sound.breath, hinted: column.hinted }, role, x, y, layout)
      : drawBead(role, x, y);
  });
  return drawn + drawLabels(column, x, heights) + drawGrace(column, x, layout);
}

/** How far the stroke behind a grace note reaches to each side, as on the staff through its stem, for readers without that. */
const GRACE_STROKE = 12;

/** A grace note left of the number of its note: smaller, and as near to the centre line as its size. Its label is as large as others. Behind it is the stroke. */
function drawGrace(column: Column, x: number, layout: LaneLayout): string {
  const { grace } = column;
  if (!grace) return '';
  const { note, role } = grace;
  const { centre } = layout;
  const at = x - column.reach.left + graceHalf(grace);
  const y = naturalHeight(note.breath, note.bend, layout);
  const number = drawNote(note, { breath: note.breath, hinted: false }, role, 0, y, layout);
  const scale = graceScale(grace);
  const place = `translate(${n(at)} ${n(centre * (1 - scale))})scale(${n(scale)})`;
  const label = role
    ? labelAt(role, at, centre + graceEdge(grace, layout.blowBends), note.breath === 'blow', false)
    : '';
  const stroke = `<path class="${CLASS.stroke} ${CLASS.lanesOnly}" d="M${-GRACE_STROKE} ${n(y + GRACE_STROKE)}L${GRACE_STROKE} ${n(y - GRACE_STROKE)}"/>`;
  return `<g class="${CLASS.grace}"><g transform="${place}">${stroke}${number}</g>${label}</g>`;
}

/** How far a grace note reaches from the centre line, its label left out: above it on the blow. */
function graceEdge(grace: GraceColumn, blowBends: number): number {
  const { note, role } = grace;
  const y = naturalHeight(note.breath, note.bend, { centre: 0, blowBends });
  const ring = note.over ? RING_ROOM : 0;
  const edge =
    note.breath === 'blow' ? y - NOTCH * note.bend + shapeOf(role).top - ring : y + shapeOf(role).bottom + ring;
  return edge * graceScale(grace);
}

function drawNote(
  note: HoleNote,
  { breath, hinted }: { readonly breath: Breath; readonly hinted: boolean },
  role: Role | undefined,
  x: number,
  y: number,
  layout: LaneLayout,
): string {
  const shape = shapeOf(role);
  let drawn = '';
  if (note.bend > 0) {
    // A line with a stroke for each half step and half of one for a quarter step: from the centre line to a draw bend, from the
    // natural's place to a blow bend.
    const from = breath === 'draw' ? layout.centre : y + shape.top - NOTCH * note.bend;
    const to = y + shape.top;
    const step = (to - from) / (note.bend + 0.5);
    const knots = Array.from(
      { length: Math.ceil(note.bend) },
      (_, index) => `M${n(x - 3.5)} ${n(from + step * (index + 0.75))}h${index < Math.floor(note.bend) ? 7 : 3.5}`,
    ).join('');
    drawn += `<path class="${CLASS.stroke}" d="M${n(x)} ${n(from)}V${n(to)}${knots}"/>`;
  }
  const number = numberOf(note);
  if (role) drawn += useShape(role, number, x, y);
  drawn += shapeText(number, x, y, role);
  if (note.over) {
    // On the side of the lane's numbers that is away from the centre line.
    const at = breath === 'blow' ? y + shape.top - RING_GAP : y + shape.bottom + RING_GAP;
    drawn += `<circle class="${CLASS.stroke}" cx="${n(x)}" cy="${n(at)}" r="2.8"/>`;
  }
  const half = halfOf(note, role);
  const reach = half + (hinted ? PARENTHESIS : 0);
  if (hinted)
    for (const side of [-1, 1]) {
      const from = x + side * (half + PARENTHESIS_GAP);
      const bow = bowPath(from, y - HALF_PARENTHESIS, y + HALF_PARENTHESIS, side * PARENTHESIS_BOW);
      drawn += `<path class="${CLASS.stroke}" d="${bow}"/>`;
    }
  if (note.slide) drawn += `<path d="M${n(x + reach + 1)} ${n(y)}l6-4v8Z"/>`;
  return drawn;
}

/** A held note whose role has changed: a small shape on its line. */
function drawBead(role: Role | undefined, x: number, y: number): string {
  if (!role) return '';
  return `<use href="#s${role.degree}" class="${shapeClasses(role)}" transform="translate(${n(x)} ${n(y)})scale(.45)"/>`;
}

/** The labels: outside of the lane's numbers where one will do, beside each hole where they differ. */
function drawLabels(column: Column, x: number, heights: readonly number[]): string {
  const sound = soundIn(column);
  const { roles } = column;
  const scale = isAttack(column) ? 1 : 0.45;
  if (labelsApart(column)) {
    return roles
      .map((role, index) => {
        if (!role) return '';
        const half = isAttack(column) ? halfOf(itemAt(sound.notes, index), role) : SHAPES[role.degree].half;
        const at = x + half * scale + 2 + (column.hinted ? PARENTHESIS : 0);
        return `<text class="${CLASS.roleLabel} ${CLASS.roleLabelBeside}" x="${n(at)}" y="${n(itemAt(heights, index) + 4.3)}">${escapeText(role.label)}</text>`;
      })
      .join('');
  }
  const role = roles[0];
  if (!role) return '';
  const blow = sound.breath === 'blow';
  // Over a blow bend the label is above that line.
  const top = (index: number): number =>
    itemAt(heights, index) - (isAttack(column) ? NOTCH * (sound.notes[index]?.bend ?? 0) : 0);
  const edge = blow
    ? Math.min(...heights.map((_, index) => top(index))) + shapeOf(role).top * scale
    : Math.max(...heights) + shapeOf(role).bottom * scale;
  return labelAt(role, x, edge, blow, isAttack(column) && sound.notes.some((note) => note.over));
}

/** A label outside of the edge of its number, and of the ring there. */
function labelAt(role: Role, x: number, edge: number, blow: boolean, hasRing: boolean): string {
  const ring = hasRing ? RING_ROOM : 0;
  return `<text class="${CLASS.roleLabel}" x="${n(x)}" y="${n(blow ? edge - 3 - ring : edge + 11 + ring)}">${escapeText(role.label)}</text>`;
}

/** How far a sound reaches above and below the centre line at 0. */
export function laneHeights(column: Column, blowBends: number): { readonly top: number; readonly bottom: number } {
  const sound = soundIn(column);
  const heights = heightsOf(column, { centre: 0, blowBends });
  const label = column.roles.some((role) => role) && !labelsApart(column) ? LABEL_ROOM : OUTLINE / 2;
  const ring = sound.notes.some((note) => note.over) ? RING_ROOM : 0;
  const tops = heights.map(
    (y, index) => y - NOTCH * (sound.notes[index]?.bend ?? 0) + shapeOf(column.roles[index]).top,
  );
  const bottoms = heights.map((y, index) => y + shapeOf(column.roles[index]).bottom);
  const small = graceHeights(column, blowBends);
  return sound.breath === 'blow'
    ? { top: Math.min(...tops, small.top) - label - ring, bottom: small.bottom }
    : { top: small.top, bottom: Math.max(...bottoms, small.bottom) + label + ring };
}

/** How far a grace note reaches above and below the centre line, with its label. */
function graceHeights({ grace }: Column, blowBends: number): { readonly top: number; readonly bottom: number } {
  if (!grace) return { top: 0, bottom: 0 };
  const edge = graceEdge(grace, blowBends);
  return grace.note.breath === 'blow' ? { top: edge - LABEL_ROOM, bottom: 0 } : { top: 0, bottom: edge + LABEL_ROOM };
}

/** A held note's line, from just after its number to where it ends. */
export const heldLine = (from: number, to: number, heights: readonly number[]): string =>
  to - from < 2
    ? ''
    : `<path class="${CLASS.heldLine}" d="${heights.map((y) => `M${n(from)} ${n(y)}H${n(to)}`).join('')}"/>`;

/** A glide: a slanting line from one number to the next, or to the tile's edge. */
export const glideLine = (from: readonly [number, number], to: readonly [number, number]): string =>
  `<path class="${CLASS.glideLine}" d="M${n(from[0])} ${n(from[1])}L${n(to[0])} ${n(to[1])}"/>`;

/** How far a sound reaches to the left of its middle: to its shapes, or to the grace note before it. */
export const leftOfNumber = (column: Column): number =>
  halfWidth(column) + (column.grace ? 2 * graceHalf(column.grace) + GRACE_GAP : 0);

/** How far an attack reaches to the right of its middle: to the end of its shapes, or of the labels beside them. */
export function rightOfNumber(column: Column): number {
  const half = halfWidth(column);
  if (!labelsApart(column)) return half;
  return half + 2 + Math.max(...column.roles.map((role) => (role ? textWidth(role.label, SIZE.label) : 0)));
}

/** Half the width of the widest number: `10q` is wider than one without a quarter step. */
const halfNumber = (column: Column): number =>
  soundIn(column).notes.some(({ hole, bend }) => hole > 9 && endsInQuarter(bend)) ? 11 : 7;

/** How far a column's role shapes reach to either side of its middle, in pixels of the drawing. */
export const halfWidth = (column: Column): number => {
  const attack = isAttack(column);
  const { notes } = soundIn(column);
  const halves = column.roles.map((role, index) =>
    role && !attack ? SHAPES[role.degree].half : halfOf(itemAt(notes, index), role),
  );
  const shape = Math.max(...halves, halfNumber(column));
  return shape * (attack ? 1 : 0.45) + (column.hinted ? PARENTHESIS : 0);
};
