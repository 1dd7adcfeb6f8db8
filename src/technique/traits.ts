/**
 * The coarse traits of a sound, as bits. Most rules ask for something that most sounds have not got: comparing bits rules
 * those out before anything finer is asked.
 */
import type { Sound } from '../score/score.ts';
import { within } from './range.ts';
import type { NoteRule } from './rule.ts';

const BENT = 1;
const OVERBENT = 2;
const SLIDE = 4;
const SEVERAL = 8;
const TONGUE = 16;
const MARKED = 32;

export function traitsOf({ notes, mouth, marks }: Sound): number {
  let traits = (notes.length > 1 ? SEVERAL : 0) | (mouth === 'tongue' ? TONGUE : 0) | (marks.length > 0 ? MARKED : 0);
  for (const { bend, over, slide } of notes) {
    traits |= (bend > 0 ? BENT : 0) | (over ? OVERBENT : 0) | (slide ? SLIDE : 0);
  }
  return traits;
}

/** The traits without which a sound cannot be what a rule asks for. */
export function traitsNeeded({ bend, overbend, slide, holes, split, octave, mouth, mark }: NoteRule): number {
  return (
    (bend && !within(bend, 0) ? BENT : 0) |
    (overbend ? OVERBENT : 0) |
    (slide ? SLIDE : 0) |
    ((holes && !within(holes, 1)) || split || octave ? SEVERAL : 0) |
    (mouth === 'tongue' ? TONGUE : 0) |
    (mark ? MARKED : 0)
  );
}
