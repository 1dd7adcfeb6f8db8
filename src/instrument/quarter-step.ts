/**
 * Quarter steps: pitches half way between two half steps, 50 cents below the upper one. Their MIDI number ends in .5,
 * which a number holds exactly, so that two of them can be compared as any other pitch.
 *
 * Names: a quarter step is spelled as the note it is below, lowered by half of a half step (`alter` is -0.5 below a natural,
 * -1.5 below a flat, 0.5 below a sharp). A player finds it from there: the blue third over C is an E that is bent a little,
 * and no E flat that is too high. So it also has the place on the staff of the note whose hole plays it.
 */
import { atFifths, fifthsOf, type Pitch, pitchOf } from './pitch.ts';

/** The depth of a quarter step in half steps. */
export const QUARTER = 0.5;

/** Whether a MIDI number, a bend or a distance in half steps ends in a quarter step. */
export const endsInQuarter = (halfSteps: number): boolean => !Number.isInteger(halfSteps);

/** A quarter step below a pitch. A double flat takes its other name before, since no sign lowers it further: A, not B double flat. */
export function quarterBelow(upper: Pitch): Pitch {
  const named = upper.alter < -1 ? pitchOf(atFifths(fifthsOf(upper) + 12), upper.midi) : upper;
  return { ...named, alter: named.alter - QUARTER, midi: named.midi - QUARTER };
}

/** The intervals that are neutral a quarter step below: half way between the major and the minor one. */
const NEUTRAL = /^[2367]$/;

/**
 * The short name of a degree or role a quarter step below another one. `n3` is the neutral third, which the blues calls the blue
 * third; where there is no major and minor interval to be between, an arrow leads down from the name: `↓5`, `↓♭3`.
 * Neutral intervals: encyclopaedia article "Neutral interval". The arrow is ours, after the arrows of quarter-tone accidentals.
 */
export const quarterLabel = (label: string): string => (NEUTRAL.test(label) ? `n${label}` : `↓${label}`);
