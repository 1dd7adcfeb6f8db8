/** Elements that share ink on purpose, each pair with its reason. Whatever is not in this list is a collision. */
import type { Box, Drawn } from './collect.ts';
import type { Kind } from './kinds.ts';
import type { Mask, Overlap } from './mask.ts';

/** A drawn element with its ink. */
export interface Inked {
  readonly kind: Kind;
  readonly drawn: Drawn;
  readonly mask: Mask;
  /** Of the ink, in CSS pixels from the block's corner. */
  readonly box: Box;
  /** CSS pixels of one unit of the drawing. */
  readonly scale: number;
}

interface Intended {
  readonly pair: readonly [Kind, Kind];
  readonly reason: string;
  /** Where only some of such pairs are meant; they come in the order of `pair`. */
  readonly when?: (one: Inked, other: Inked, overlap: Overlap) => boolean;
}

const middle = ([left, top, right, bottom]: Box): readonly [number, number] => [(left + right) / 2, (top + bottom) / 2];
const apart = (one: number, other: number): number => Math.abs(one - other);

/** Neither is known to belong to another event than the other: what joins several notes belongs to no single one. */
const ofOneEvent = (one: Inked, other: Inked): boolean =>
  one.drawn.event === undefined || other.drawn.event === undefined || one.drawn.event === other.drawn.event;

/** A stem stands at one side of a head, not across it. */
function atSide(stem: Inked, head: Inked): boolean {
  const [x] = middle(stem.box);
  const near = 1.8 * stem.scale;
  return apart(x, head.box[0]) <= near || apart(x, head.box[2]) <= near;
}

/** How far an end of a stem is from the overlap, in units of the drawing. */
const toEnd = (stem: Inked, { box }: Overlap): number =>
  Math.min(apart(stem.box[1], box[1]), apart(stem.box[3], box[3])) / stem.scale;

/** Whether the ink they share is no deeper than lines that meet. */
const meets =
  (depth: number) =>
  (one: Inked, other: Inked, { box }: Overlap): boolean =>
    ofOneEvent(one, other) && Math.min(box[2] - box[0], box[3] - box[1]) <= depth * one.scale;

const besideEachOther = (one: Inked, other: Inked): boolean =>
  apart(middle(one.box)[0], middle(other.box)[0]) >
  0.7 * Math.min(one.box[2] - one.box[0], other.box[2] - other.box[0]);

const within = (inner: Inked, outer: Inked): boolean => {
  const [x, y] = middle(inner.box);
  const [u, v] = middle(outer.box);
  return ofOneEvent(inner, outer) && apart(x, u) <= 3 * inner.scale && apart(y, v) <= 6 * inner.scale;
};

export const INTENDED: readonly Intended[] = [
  { pair: ['repeated bar', 'lane line'], reason: 'the sign of a repeated bar is on the middle line of the lanes' },
  { pair: ['repeated bar', 'staff lines'], reason: 'the sign of a repeated bar is on the staff' },
  { pair: ['stem', 'notehead'], reason: 'a stem begins at the side of its head', when: atSide },
  { pair: ['stem', 'ledger line'], reason: 'a stem passes the ledger lines of its own note', when: ofOneEvent },
  { pair: ['stem', 'stem'], reason: 'the stems of two heads of one note are one line', when: ofOneEvent },
  {
    pair: ['stem', 'flag'],
    reason: 'a flag hangs on the end of its stem',
    when: (stem, flag) => ofOneEvent(stem, flag) && apart(middle(stem.box)[0], flag.box[0]) <= 2 * stem.scale,
  },
  {
    pair: ['stem', 'beam'],
    reason: 'a stem ends at its outermost beam and passes the others',
    when: (stem, _, overlap) => toEnd(stem, overlap) <= 27,
  },
  { pair: ['notehead', 'ledger line'], reason: 'a head stands on its ledger line', when: ofOneEvent },
  { pair: ['notehead', 'notehead'], reason: 'the heads of a second stand side by side', when: besideEachOther },
  { pair: ['grace note', 'grace note'], reason: 'the parts of a small note', when: ofOneEvent },
  { pair: ['grace note', 'role shape'], reason: 'the stroke of a small note is behind its number', when: ofOneEvent },
  { pair: ['grace note', 'hole number'], reason: 'the stroke of a small note is behind its number', when: ofOneEvent },
  { pair: ['rest', 'ledger line'], reason: 'a rest outside of the staff hangs on a line', when: ofOneEvent },
  { pair: ['meter', 'meter'], reason: 'the digits of a meter fill the two halves of the staff' },
  { pair: ['tuplet figure', 'tuplet figure'], reason: 'the digits of one number', when: ofOneEvent },
  { pair: ['curve', 'bar line'], reason: 'ties and slurs lead over the bar line' },
  { pair: ['bar line', 'bar line'], reason: 'bars at the edge of two tiles' },
  { pair: ['ending bracket', 'ending bracket'], reason: 'an ending goes on in the next tile' },
  { pair: ['phrase bracket', 'phrase bracket'], reason: 'a phrase goes on in the next tile' },
  { pair: ['hole number', 'role shape'], reason: 'a number stands in the shape of its role', when: within },
  { pair: ['hole number', 'breath line'], reason: 'the breath joins the holes of a chord', when: ofOneEvent },
  { pair: ['role shape', 'breath line'], reason: 'the breath joins the holes of a chord', when: ofOneEvent },
  { pair: ['bend line', 'role shape'], reason: 'a bend ends at its note', when: meets(3) },
  { pair: ['bend line', 'hole number'], reason: 'a bend ends at its note', when: meets(2) },
  { pair: ['bend line', 'lane line'], reason: 'a draw bend begins at the line between blow and draw' },
  { pair: ['overbend ring', 'role shape'], reason: 'a ring sits on its note', when: meets(3) },
  { pair: ['held line', 'slide sign'], reason: 'a note that is played with the slide is held behind its sign' },
  { pair: ['held line', 'held line'], reason: 'a note that is held over a bar line goes on in the next tile' },
  { pair: ['held line', 'glide line'], reason: 'a note is held and then glides' },
  { pair: ['glide line', 'glide line'], reason: 'a glide over a bar line goes on in the next tile' },
  { pair: ['bar line', 'lane line'], reason: 'bar lines of the lanes cross the line between blow and draw' },
  { pair: ['bar line', 'held line'], reason: 'a note is held over a bar line' },
  { pair: ['bar line', 'glide line'], reason: 'a glide leads over a bar line' },
  { pair: ['held line', 'lane line'], reason: 'a note is held over the tick of a bar line' },
  { pair: ['glide line', 'lane line'], reason: 'a glide leads over the tick of a bar line' },
  {
    pair: ['curve', 'curve'],
    reason: 'a curve over a bar line goes on in the next tile',
    when: (one, other) => one.drawn.part !== other.drawn.part,
  },
  { pair: ['mouth band', 'tongue hatching'], reason: 'the hatching is between the edges of the band' },
  { pair: ['mouth band', 'mouth band'], reason: 'a band goes on in the next tile' },
  { pair: ['tongue hatching', 'tongue hatching'], reason: 'a band goes on in the next tile' },
];

/** Lines that music is written on: only words must keep off them. */
const GROUND: ReadonlySet<Kind> = new Set(['staff lines', 'lane line']);
const WORDS: ReadonlySet<Kind> = new Set([
  'chord name', 'numeral', 'part label', 'phrase name', 'direction', 'dynamic', 'bar number', 'small text', 'mark word', 'lyric', 'verse number', 'syllable', 'lane name', 'role label', 'hole number',
]); // biome-ignore format: a list to read across

/** The staff is the ground of everything but words; the lanes' line of its own ends. */
export function onGround(one: Kind, other: Kind): boolean {
  if (GROUND.has(one) && GROUND.has(other)) return true;
  if (one === 'staff lines') return !WORDS.has(other);
  if (other === 'staff lines') return !WORDS.has(one);
  return false;
}

const KEYED = Map.groupBy(INTENDED, ({ pair }) => pair.toSorted().join(' × '));

/** Whether two elements share ink on purpose. */
export function isIntended(one: Inked, other: Inked, overlap: Overlap): boolean {
  return (KEYED.get(pairName(one.kind, other.kind)) ?? []).some(({ pair: [first], when }) => {
    if (!when) return true;
    if (one.kind === other.kind || one.kind === first) return when(one, other, overlap);
    return when(other, one, overlap);
  });
}

/** The name of a pair of kinds, whichever comes first. */
export const pairName = (one: Kind, other: Kind): string => [one, other].toSorted().join(' × ');
