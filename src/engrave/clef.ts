/** The clef of a score: the treble clef, with an octave sign where that keeps the notes near the staff. */
import { LETTERS, type Pitch } from '../instrument/pitch.ts';
import { soundsOf } from '../score/queries.ts';
import type { Score } from '../score/score.ts';

/** A clef, and the octave in which it shows the notes. */
export interface Clef {
  /** Code point of its glyph. */
  readonly code: number;
  /** Octaves the notes sound above where they are written. */
  readonly octaves: -1 | 0 | 1 | 2;
  /** What it does, for readers who do not see its sign; empty for the plain clef. */
  readonly words: string;
}

/** The signs: Standard Music Font Layout, “Clefs”: gClef, gClef8vb, gClef8va, gClef15ma. */
export const TREBLE: Clef = { code: 0xe050, octaves: 0, words: '' };
const CLEFS: readonly Clef[] = [
  TREBLE,
  { code: 0xe052, octaves: -1, words: 'Everything sounds an octave lower than the staff has it.' },
  { code: 0xe053, octaves: 1, words: 'Everything sounds an octave higher than the staff has it.' },
  { code: 0xe054, octaves: 2, words: 'Everything sounds two octaves higher than the staff has it.' },
];

/** Letters counted from C0: 30 is E4, the bottom line of the treble clef, and 38 the top line. */
const stepOf = (pitch: Pitch): number => LETTERS.indexOf(pitch.letter) + 7 * pitch.octave;

function ledgerLines(step: number): number {
  if (step < 30) return Math.floor((30 - step) / 2);
  return step > 38 ? Math.floor((step - 38) / 2) : 0;
}

/** What an octave has to spare of the ledger lines (squared) of an average note, to be worth a clef that moves it. */
const WORTH = 0.75;

/**
 * The clef whose notes need the fewest ledger lines, many on one note counting more. A clef that moves them an octave has to
 * be clearly better than one that moves them less; the plain one goes before all.
 */
export function clefOf(score: Pick<Score, 'bars'>): Clef {
  const steps = soundsOf(score).flatMap((sound) => sound.notes.map((note) => stepOf(note.pitch)));
  if (steps.length === 0) return TREBLE;
  const cost = ({ octaves }: Clef): number => {
    const total = steps.reduce((sum, step) => sum + ledgerLines(step - 7 * octaves) ** 2, 0);
    return total / steps.length + WORTH * Math.abs(octaves);
  };
  return CLEFS.reduce((best, clef) => (cost(clef) < cost(best) ? clef : best));
}

/** The y of a pitch on the staff: the top line, F5, is at 0, and a step is 5. */
export const staffY = (pitch: Pitch, clef: Clef): number => 5 * (38 + 7 * clef.octaves - stepOf(pitch));
