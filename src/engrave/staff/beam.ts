/**
 * Beams: their slope, how far from the heads they lie, and which parts of them each note has. Slopes and lengths follow Gould,
 * “Behind Bars”, “Beams”, from memory: a slope grows with the interval up to little more than a space, and is level where a note
 * between the ends is nearest to the beam.
 */
import { itemAt, lastOf } from '../../values/checked.ts';
import { glyphBox, type InkBox } from './box.ts';
import { LINE } from './line.ts';
import { BEAM_STEP, flagsOf, MIDDLE, type NoteShape, type Stem, stemLength } from './note.ts';

/** A straight piece of a beam: its outer edge from one x to another. */
export interface BeamPiece {
  readonly from: number;
  readonly to: number;
  /** The y of the outer edge at both ends, and how thick it is towards the heads. */
  readonly fromY: number;
  readonly toY: number;
  readonly thickness: number;
}

/** A beam with the stems of its notes. */
export interface LaidBeam {
  /** Positions among the notes of the tile. */
  readonly members: readonly number[];
  readonly up: boolean;
  readonly stems: readonly Stem[];
  readonly pieces: readonly BeamPiece[];
}

const THICKNESS = 5;
/** How much a beam rises or falls, by the steps from the first note to the last. */
const RISE = [0, 2.5, 5, 7.5, 7.5, 10, 10, 12.5] as const;
const STEEPEST = 0.25;
/** Ends are on a quarter of a space: on, under, over or astride a line. */
const GRID = 2.5;
/** The shortest stem under one beam; each further beam takes its own step. */
const SHORTEST_STEM = 25;
/** Between a beam and an accidental under it. */
const ACCIDENTAL_GAP = 1.5;
/** A piece for a single note. */
const STUB = 10;

/** Lays a beam over notes at their places, from the first on. */
export function layBeam(members: readonly number[], notes: readonly NoteShape[], xs: readonly number[]): LaidBeam {
  const own = members.map((at) => itemAt(notes, at));
  const up = itemAt(own, 0).up;
  const way = up ? -1 : 1;
  const stemXs = members.map((at, index) => itemAt(xs, at) + (itemAt(own, index).stem?.x ?? 0));
  /** Of each note the head nearest to the beam, counted from the middle line away from the heads. */
  const nearest = own.map(({ content }) => {
    const ys = content.heads.map(({ y }) => y - MIDDLE);
    return up ? -Math.min(...ys) : Math.max(...ys);
  });
  const first = itemAt(stemXs, 0);
  const width = lastOf(stemXs) - first;
  const rise = riseOf(nearest, width);
  const slope = width === 0 ? 0 : rise / width;
  const flags = own.map(({ content }) => flagsOf(content.value));
  const most = Math.max(...flags);
  const shortest = SHORTEST_STEM + BEAM_STEP * (most - 1);
  const wanted = stemLength(most);

  // Everything is counted outwards from the middle line: how far the beam must be at its first stem. Its ends are as long as
  // stems are on average, neither is much shorter, and those between them may be shorter still.
  let height = (itemAt(nearest, 0) + lastOf(nearest) - rise) / 2 + wanted;
  nearest.forEach((at, index) => {
    const along = slope * (itemAt(stemXs, index) - first);
    const isEnd = index === 0 || index === nearest.length - 1;
    height = Math.max(height, at + (isEnd ? Math.max(shortest, wanted - 3 * GRID) : shortest) - along);
  });
  // The accidentals under it are clear of its innermost part.
  const depth = THICKNESS + BEAM_STEP * (most - 1) + ACCIDENTAL_GAP;
  own.forEach(({ accidentals }, index) => {
    for (const placed of accidentals.values()) {
      const { left, right, top, bottom } = glyphBox(placed);
      const x = itemAt(xs, itemAt(members, index));
      // Before the first note there is no beam.
      if (x + right < first) continue;
      const reach = up ? MIDDLE - top : bottom - MIDDLE;
      const along = slope * ((slope > 0 ? Math.max(first, x + left) : x + right) - first);
      height = Math.max(height, reach + depth - along);
    }
  });
  // Far from the middle a beam reaches the middle line.
  height = Math.max(height, -Math.min(0, rise));
  height = Math.ceil(height / GRID - 1e-6) * GRID;
  const yAt = (x: number): number => MIDDLE + way * (height + slope * (x - first));

  const stems = own.map(
    (note, index): Stem => ({
      x: note.stem?.x ?? 0,
      base: note.stem?.base ?? MIDDLE,
      tip: yAt(itemAt(stemXs, index)),
    }),
  );
  const pieces = Array.from({ length: most }, (_, level) =>
    spans(flags, level + 1, stemXs).map(
      ({ from, to }): BeamPiece => ({
        from,
        to,
        fromY: yAt(from) - way * BEAM_STEP * level,
        toY: yAt(to) - way * BEAM_STEP * level,
        thickness: -way * THICKNESS,
      }),
    ),
  ).flat();
  return { members, up, stems, pieces };
}

/** How much a beam rises outwards from its first stem to its last. */
function riseOf(nearest: readonly number[], width: number): number {
  const [first, last] = [itemAt(nearest, 0), lastOf(nearest)];
  if (nearest.slice(1, -1).some((at) => at > Math.max(first, last))) return 0;
  const steps = Math.min(RISE.length - 1, Math.round(Math.abs(last - first) / 5));
  const most = Math.floor((STEEPEST * width) / GRID) * GRID;
  return Math.sign(last - first) * Math.min(itemAt(RISE, steps), most);
}

/** From where to where the beam of a level goes: over neighbours that both have it, or a stub at a note alone. */
function spans(flags: readonly number[], level: number, xs: readonly number[]): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  for (let start = 0; start < flags.length; start++) {
    if (itemAt(flags, start) < level) continue;
    let end = start;
    while (end + 1 < flags.length && itemAt(flags, end + 1) >= level) end++;
    const [from, to] = [itemAt(xs, start), itemAt(xs, end)];
    if (end > start) found.push({ from: from - LINE / 2, to: to + LINE / 2 });
    else if (start === 0) found.push({ from: from - LINE / 2, to: from + stub(from, xs[1]) });
    // Towards the note it is a part with: a stub after a longer note points back to it.
    else found.push({ from: from - stub(from, xs[start - 1]), to: from + LINE / 2 });
    start = end;
  }
  return found;
}

const stub = (x: number, neighbour = x + 2 * STUB): number => Math.min(STUB, 0.6 * Math.abs(neighbour - x));

/** What a beam covers, as boxes along it that are narrow enough to follow its slope. */
export const beamBoxes = ({ pieces }: LaidBeam): InkBox[] =>
  pieces.flatMap(({ from, to, fromY, toY, thickness }) => {
    const parts = Math.max(1, Math.ceil(Math.abs(to - from) / 8));
    return Array.from({ length: parts }, (_, index): InkBox => {
      const [left, right] = [from + ((to - from) * index) / parts, from + ((to - from) * (index + 1)) / parts];
      const at = (x: number): number => fromY + ((toY - fromY) * (x - from)) / (to - from);
      const ys = [at(left), at(right), at(left) + thickness, at(right) + thickness];
      return { left, right, top: Math.min(...ys), bottom: Math.max(...ys) };
    });
  });
