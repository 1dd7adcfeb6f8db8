/**
 * The coarse traits of a sound, as bits. Most rules ask for something that most sounds, and many blocks, have not got:
 * comparing bits rules those out before anything finer is asked.
 */
import type { Sound } from '../score/score.ts';
import { type NumberRange, within } from './range.ts';
import type { NoteRule } from './rule.ts';

const BENT = 1;
const OVERBENT = 2;
const SLIDE = 4;
const SEVERAL = 8;
const TONGUE = 16;
const MARKED = 32;
/** Which hole is bent or overbent has a bit of its own, for holes that fit into the number with the others. */
const LAST_HOLE = 10;
const bentHole = (hole: number): number => (hole <= LAST_HOLE ? 2 ** (5 + hole) : 0);
const overbentHole = (hole: number): number => (hole <= LAST_HOLE ? 2 ** (5 + LAST_HOLE + hole) : 0);

/** The traits of a sound as bits, to rule out techniques quickly before their rules are tried. */
export function traitsOf({ notes, mouth, marks }: Pick<Sound, 'notes' | 'mouth' | 'marks'>): number {
  let traits = (notes.length > 1 ? SEVERAL : 0) | (mouth === 'tongue' ? TONGUE : 0) | (marks.length > 0 ? MARKED : 0);
  for (const { hole, bend, over, slide } of notes) {
    if (over) traits |= OVERBENT | overbentHole(hole);
    else if (bend > 0) traits |= BENT | bentHole(hole);
    if (slide) traits |= SLIDE;
  }
  return traits;
}

/** The traits without which a sound cannot be what a rule asks for. */
export function traitsNeeded({ hole, bend, overbend, slide, holes, split, octave, mouth, mark }: NoteRule): number {
  const one = hole && theOnly(hole);
  return (
    (bend && !within(bend, 0) ? BENT | (one ? bentHole(one) : 0) : 0) |
    (overbend ? OVERBENT | (one ? overbentHole(one) : 0) : 0) |
    (slide ? SLIDE : 0) |
    ((holes && !within(holes, 1)) || split || octave ? SEVERAL : 0) |
    (mouth === 'tongue' ? TONGUE : 0) |
    (mark ? MARKED : 0)
  );
}

const theOnly = ({ least, most }: NumberRange): number | undefined => (least === most ? least : undefined);

/** Whether nothing that is needed is missing. */
export const hasTraits = (traits: number, needed: number): boolean => (traits & needed) === needed;
