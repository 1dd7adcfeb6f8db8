/** The clef of a score: the treble clef, with an octave sign where that keeps the notes near the staff. */
import { LETTERS, type Pitch } from '../instrument/pitch.ts';
import { soundsOf } from '../score/ask.ts';
import type { Score } from '../score/score.ts';

export interface Clef {
  /** Code point of its glyph. */
  readonly code: number;
  /** Octaves the notes sound above where they are written. */
  readonly octaves: -1 | 0 | 1;
  readonly name: string;
}

export const TREBLE: Clef = { code: 0xe050, octaves: 0, name: 'treble clef' };
const CLEFS: readonly Clef[] = [
  TREBLE,
  { code: 0xe052, octaves: -1, name: 'treble clef, an octave down' },
  { code: 0xe053, octaves: 1, name: 'treble clef, an octave up' },
];

/** Letters counted from C0: 30 is E4, the bottom line of the treble clef, and 38 the top line. */
const stepOf = (pitch: Pitch): number => LETTERS.indexOf(pitch.letter) + 7 * pitch.octave;

function ledgerLines(step: number): number {
  if (step < 30) return Math.floor((30 - step) / 2);
  return step > 38 ? Math.floor((step - 38) / 2) : 0;
}

/** The clef whose notes need the fewest ledger lines, many at once counting more; the plain clef unless another is clearly better. */
export function clefOf(score: Pick<Score, 'bars'>): Clef {
  const steps = soundsOf(score as Score).flatMap((sound) => sound.notes.map((note) => stepOf(note.pitch)));
  if (steps.length === 0) return TREBLE;
  const cost = ({ octaves }: Clef): number => {
    const total = steps.reduce((sum, step) => sum + ledgerLines(step - 7 * octaves) ** 2, 0);
    return total / steps.length + (octaves === 0 ? 0 : 0.75);
  };
  return CLEFS.reduce((best, clef) => (cost(clef) < cost(best) ? clef : best));
}

/** The place on the staff VexFlow gives a pitch: `b/4` is the middle line. */
export const staffKey = (pitch: Pitch, clef: Clef): string =>
  `${pitch.letter.toLowerCase()}/${pitch.octave - clef.octaves}`;
