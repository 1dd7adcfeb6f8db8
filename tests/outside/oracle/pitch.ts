// Names of notes, and the key.
// Letters, signs and the line of fifths are elementary theory: any textbook, e.g. Benward & Saker,
// "Music in Theory and Practice", vol. 1 (from memory).

export const LETTERS = 'CDEFGAB';
const NATURAL = [0, 2, 4, 5, 7, 9, 11]; // half steps of C D E F G A B above C
export const MAJOR = [0, 2, 4, 5, 7, 9, 11]; // the major scale
// Natural minor, with the raised sixth and seventh allowed as well, each with its scale step.
const MINOR_STEPS: [number, number][] = [
  [0, 0],
  [2, 1],
  [3, 2],
  [5, 3],
  [7, 4],
  [8, 5],
  [9, 5],
  [10, 6],
  [11, 6],
];

export const mod12 = (n: number): number => ((n % 12) + 12) % 12;

export const letterOf = (name: string): number => LETTERS.indexOf(name[0]!);

export function pcOf(name: string): number {
  let pc = NATURAL[letterOf(name)]!;
  for (const sign of name.slice(1)) pc += sign === '#' ? 1 : -1;
  return mod12(pc);
}

/** How many sharps (or, below 0, flats) this letter needs to be this pitch class. */
export function signsFor(letter: number, pc: number): number {
  return mod12(pc - NATURAL[((letter % 7) + 7) % 7]! + 6) - 6;
}

export function nameAt(letter: number, pc: number): string {
  const signs = signsFor(letter, pc);
  return LETTERS[((letter % 7) + 7) % 7]! + (signs > 0 ? '#' : 'b').repeat(Math.abs(signs));
}

/** Place on the line of fifths: F -1, C 0, G 1 … F# 6, and Bb -2, Fb -8. */
export function fifths(name: string): number {
  const signs = signsFor(letterOf(name), pcOf(name));
  return 'FCGDAEB'.indexOf(name[0]!) - 1 + 7 * signs;
}

export function nameOnFifths(place: number): string {
  const letter = 'FCGDAEB'[(((place + 1) % 7) + 7) % 7]!;
  const signs = Math.floor((place + 1) / 7);
  return letter + (signs > 0 ? '#' : 'b').repeat(Math.abs(signs));
}

export type Mode = 'major' | 'minor';

export interface Key {
  tonic: number;
  mode: Mode;
  name: string;
}

/**
 * The tonic's name is the one whose signature has at most six signs. A minor key has the signature of the
 * major key three fifths down (circle of fifths, any textbook). F# or Gb major and D# or Eb minor both have six:
 * the name is then the one nearer to `place`, the tonic's place on the line of fifths by harp and position.
 */
export function keyOf(tonic: number, mode: Mode, place: number): Key {
  const shift = mode === 'minor' ? 3 : 0;
  const names: string[] = [];
  for (let signature = -6; signature <= 6; signature++) {
    const name = nameOnFifths(signature + shift);
    if (pcOf(name) === tonic) names.push(name);
  }
  const distance = (other: string): number => Math.abs(fifths(other) - place);
  const name = names.reduce((best, other) => (distance(other) < distance(best) ? other : best));
  return { tonic, mode, name };
}

/** The letter a pitch class has in the song's scale, or undefined if it is not of the scale. */
export function scaleLetter(key: Key, pc: number): number | undefined {
  const above = mod12(pc - key.tonic);
  const step = key.mode === 'major' ? MAJOR.indexOf(above) : (MINOR_STEPS.find(([half]) => half === above)?.[1] ?? -1);
  return step < 0 ? undefined : (letterOf(key.name) + step) % 7;
}

/** Spelling by the key alone: 1 b2 2 b3 3 4 b5 5 b6 6 b7 7 above the tonic's letter. */
export function nameByKey(key: Key, pc: number): string {
  const steps = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6];
  const above = mod12(pc - key.tonic);
  const name = nameAt(letterOf(key.name) + steps[above]!, pc);
  // Players write B in F, and E in Bb: no Cb, Fb or double flat for the note between fourth and fifth.
  return above === 6 && fifths(name) < -6 ? nameAt(letterOf(key.name) + 3, pc) : name;
}
