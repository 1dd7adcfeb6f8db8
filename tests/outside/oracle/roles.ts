// What a note is over a chord, and how it is then spelled: chord-scale practice of jazz and blues handbooks (common practice, no
// source). The song's scale decides between sharp fourth and flat fifth; the IV7 of a major song has the blues' flat fifth. What
// is of the song's scale and not of the chord keeps the name it has in the key.
import type { Chord } from './chords.ts';
import type { Key } from './pitch.ts';
import { fifths, letterOf, mod12, nameAt, nameByKey, nameOnFifths, pcOf, scaleLetter, signsFor } from './pitch.ts';

const OTHER = ['R', '♭9', '2', '♭3', '3', '4', '', '5', '♭6', '6', '♭7', '7'];

export function roleOf(midi: number, chord: Chord, key: Key): string {
  // A quarter step between a minor and a major interval is the neutral one (the encyclopaedia article "Neutral interval"); the arrow
  // for any other is a convention of the notation.
  if (midi % 1 !== 0) {
    const above = roleOf(midi + 0.5, chord, key);
    return ['2', '3', '6', '7'].includes(above) ? `n${above}` : `↓${above}`;
  }
  const pc = mod12(midi);
  const half = mod12(pc - pcOf(chord.root));
  const own = chord.quality.roles.get(half);
  if (own !== undefined) return own;
  if (half !== 6) return OTHER[half]!;
  const has = (tone: number): boolean => chord.tones.includes(tone);
  if (has(11)) return '♯11';
  const letter = scaleLetter(key, pc);
  const fourth = letter !== undefined && (letter - letterOf(key.name) - chord.step + 14) % 7 === 3;
  if (!fourth || bluesFour(chord, key)) return '♭5';
  return has(10) ? '♯11' : '♯4';
}

/** The dominant chord on the fourth step of a major song. */
const bluesFour = (chord: Chord, key: Key): boolean =>
  key.mode === 'major' &&
  chord.tones.includes(4) &&
  chord.tones.includes(10) &&
  mod12(pcOf(chord.root) - key.tonic) === 5;

/** Letters above the root: R 0, 2 and 9 one, ♭3 two … A ♯9 is written as ♭3. */
function lettersAbove(role: string): number {
  if (role === 'R') return 0;
  if (role === '♯9') return 2;
  return (Number(role.replace(/[♭♯]/g, '')) - 1) % 7;
}

/** The note's name without octave. Without a chord, by the key. */
export function spell(midi: number, chord: Chord | undefined, key: Key): string {
  // A quarter step has the name of the note above it and one sign more: a convention of the notation. There is none under two flats.
  if (midi % 1 !== 0) {
    const above = spell(midi + 0.5, chord, key);
    return `${above.endsWith('bb') ? nameOnFifths(fifths(above) + 12) : above}q`;
  }
  const pc = mod12(midi);
  if (chord === undefined) return nameByKey(key, pc);
  const letter = letterOf(chord.root) + lettersAbove(roleOf(midi, chord, key));
  const signs = Math.abs(signsFor(letter, pc));
  const half = mod12(pc - pcOf(chord.root));
  const own = chord.tones.includes(half);
  if (!own && scaleLetter(key, pc) !== undefined && !(half === 6 && bluesFour(chord, key))) return nameByKey(key, pc);
  if (signs > 2 || (signs === 2 && !own)) return nameByKey(key, pc);
  return nameAt(letter, pc);
}
