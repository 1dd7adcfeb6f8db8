/** Notes and rests in ABC 2.1: pitch with its accidental, length in units, ties, slurs, tuplets and decorations. */
import { type SongKey, signatureAlter } from '../../harmony/key.ts';
import { type Letter, nameAbove, type Pitch, pitchNamed } from '../../instrument/pitch.ts';
import { filledIn, type Mark, type MarkSign, rowOf } from '../../score/mark.ts';
import { divide, type Fraction, format } from '../../time/fraction.ts';
import { itemAt, valueAt } from '../../values/checked.ts';
import { quotedText } from './text.ts';

/** The unit of lengths: an eighth. */
export const UNIT: Fraction = { n: 1, d: 8 };

/** ABC 2.1, “Accidentals”. It has no quarter tones: those are written as abc2midi and abcjs read them. */
const ACCIDENTALS: ReadonlyMap<number, string> = new Map([
  [-2, '__'],
  [-1, '_'],
  [-0.5, '_/'],
  [0, '='],
  [0.5, '^/'],
  [1, '^'],
  [2, '^^'],
]);

/** Writes the pitches of a bar, and remembers what its accidentals have changed. */
export interface PitchWriter {
  write(pitch: Pitch): string;
}

/**
 * An accidental is written wherever the key signature alone does not say the pitch, and on each later note of that letter
 * in the bar: readers differ in how far an accidental reaches.
 */
export function pitchWriter(key: SongKey): PitchWriter {
  const changed = new Set<Letter>();
  return {
    write(pitch) {
      const { letter, alter, octave } = withOneSign(pitch);
      if (alter !== signatureAlter(key, letter)) changed.add(letter);
      const accidental = changed.has(letter) ? valueAt(ACCIDENTALS, alter) : '';
      // Octave 5 begins at `c`.
      const name = octave >= 5 ? letter.toLowerCase() : letter;
      return accidental + name + (octave >= 5 ? "'".repeat(octave - 5) : ','.repeat(4 - octave));
    },
  };
}

/** Three quarter tones have no sign that all readers know: they are one quarter tone beside the next letter. */
function withOneSign(pitch: Pitch): Pitch {
  if (Math.abs(pitch.alter) !== 1.5) return pitch;
  const letter = nameAbove(pitch, pitch.alter < 0 ? 7 : 2, 0).letter;
  const alters = [-0.5, 0.5].flatMap((alter) => pitchNamed({ letter, alter }, pitch.midi) ?? []);
  return itemAt(alters, 0);
}

/** A length in units: nothing for one of them. */
export function lengthText(length: Fraction): string {
  const units = divide(length, UNIT);
  return units.n === 1 && units.d === 1 ? '' : format(units);
}

const DECORATIONS: Readonly<Record<MarkSign, string>> = {
  dot: '.',
  bar: '!tenuto!',
  wedge: '!accent!',
  scoop: '!slide!',
  drop: '"^fall"',
};

/** A mark in front of its note: a decoration where the standard has one, else its words above the note. */
export function decoration(mark: Mark, isTiedOn: boolean): string {
  const { drawing } = rowOf(mark.name);
  // abc2midi strikes a note with a dot again where it is tied on.
  if (isTiedOn && 'sign' in drawing && drawing.sign === 'dot') return `"^${mark.name}"`;
  if ('sign' in drawing) return DECORATIONS[drawing.sign];
  if ('end' in drawing) return drawing.end === 'comma' ? '!breath!' : '!fermata!';
  if ('dynamic' in drawing) return `!${drawing.dynamic}!`;
  return 'around' in drawing || 'before' in drawing
    ? `"^${mark.name}"`
    : `"^${quotedText(filledIn(drawing.word, mark))}"`;
}
