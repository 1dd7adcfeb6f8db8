import {
  chromaOf,
  FLAT_DEGREES,
  majorDegree,
  mod,
  nameAbove,
  type Pitch,
  type PitchClass,
  pitchNamed,
} from '../instrument/pitch.ts';
import { endsInQuarter, QUARTER, quarterBelow, quarterLabel } from '../instrument/quarter-step.ts';
import { itemAt } from '../values/checked.ts';
import type { Chord, Degree } from './chord.ts';
import { isInScale, isStep, type SongKey, spellInKey } from './key.ts';

/** What a note is to the chord of the moment. */
export interface Role {
  readonly degree: Degree;
  /** Half steps above the root, 0 to 11, or up to 11.5 in quarter steps. */
  readonly semitones: number;
  /** Half steps the degree is lowered (-1, -2) or raised (1) from the major scale's; -0.5 for a quarter step below it. */
  readonly alter: number;
  /** The trade's short name: `R`, `♭3`, `5`, `♭7`, `♭9` … and `n3`, `↓5` for quarter steps ({@link quarterLabel}). */
  readonly label: string;
  /** Root, third, fifth and seventh of the chord itself are tones; all else colours it. */
  readonly tone: boolean;
}

/**
 * Roles by half steps above the root where the chord itself does not say otherwise:
 * [degree, label]. The blue notes take their flat spelling. Common practice, no source.
 */
const ROLES: readonly (readonly [Degree, string])[] = [
  [1, 'R'],
  [2, '♭9'],
  [2, '2'],
  [3, '♭3'],
  [3, '3'],
  [4, '4'],
  [5, '♭5'],
  [5, '5'],
  [6, '♭6'],
  [6, '6'],
  [7, '♭7'],
  [7, '7'],
];

/**
 * The role of a pitch (its MIDI number, or any number of half steps above a C) over a chord, in a song of a key. The key
 * decides between the flat fifth and the sharp fourth of a chord that has neither.
 */
export function roleOf(midi: number, chord: Chord, key: SongKey): Role {
  if (endsInQuarter(midi)) return roleBelow(roleOf(midi + QUARTER, chord, key));
  const semitones = mod(midi - chromaOf(chord.root), 12);
  const own = chord.tones.find((tone) => tone.semitones === semitones);
  if (own) {
    const alter = alteration(own.degree, semitones);
    return {
      degree: own.degree,
      semitones,
      alter,
      label: own.number === 1 ? 'R' : signs(alter) + own.number,
      tone: true,
    };
  }
  if (semitones === 6 && isSharpFourth(midi, chord, key)) {
    return { degree: 4, semitones, alter: 1, label: seventhOf(chord) ? '♯11' : '♯4', tone: false };
  }
  const [degree, label] = itemAt(ROLES, semitones);
  return { degree, semitones, alter: alteration(degree, semitones), label, tone: false };
}

/** A quarter step below a role. It is no tone of any chord. */
const roleBelow = ({ degree, semitones, alter, label }: Role): Role => ({
  degree,
  semitones: mod(semitones - QUARTER, 12),
  alter: alter - QUARTER,
  label: quarterLabel(label),
  tone: false,
});

/**
 * Six half steps above the root are the sharp eleventh of a major seventh chord, and the sharp fourth where the song's
 * scale has that note as a fourth: E over Bb in D minor. Elsewhere they are the flat fifth, as the blues has it over its
 * IV7. Common practice, no source.
 */
function isSharpFourth(midi: number, chord: Chord, key: SongKey): boolean {
  if (seventhOf(chord) === 11) return true;
  if (isBluesFour(chord, key) || !isInScale(midi, key)) return false;
  return mod(itemAt(FLAT_DEGREES, mod(midi - chromaOf(key.tonic), 12)) - chord.step, 7) === 3;
}

/** The dominant chord on the fourth step of a major song, over which the seventh step is the blues' flat fifth. */
const isBluesFour = (chord: Chord, { tonic, mode }: SongKey): boolean =>
  isStep(mode, 4) &&
  seventhOf(chord) === 10 &&
  chord.tones.some(({ semitones }) => semitones === 4) &&
  mod(chromaOf(chord.root) - chromaOf(tonic), 12) === 5;

const seventhOf = ({ tones }: Chord): number | undefined => tones.find(({ degree }) => degree === 7)?.semitones;

const alteration = (degree: Degree, semitones: number): number => semitones - majorDegree(degree);
const signs = (alter: number): string => (alter < 0 ? '♭'.repeat(-alter) : '♯'.repeat(alter));

const NUMBER_WORDS: Readonly<Record<string, string>> = {
  R: 'root',
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  6: 'sixth',
  7: 'seventh',
  9: 'ninth',
  11: 'eleventh',
  13: 'thirteenth',
};

/** The role in words, for a text read aloud: `the flat seventh`, `the root`, `the neutral third`, `a quarter step below the fifth`. */
export function roleInWords(role: Role): string {
  if (endsInQuarter(role.semitones)) {
    const { label } = role;
    if (label.startsWith('n')) return `the neutral ${NUMBER_WORDS[label.slice(1)]}`;
    return `a quarter step below ${roleInWords({ ...role, semitones: role.semitones + QUARTER, alter: role.alter + QUARTER, label: label.slice(1) })}`;
  }
  const word = NUMBER_WORDS[role.label.replace(/[♭♯]/g, '')];
  // A chord names its third and seventh major or minor; players say flat third, and plain third for the major one.
  const flat = role.alter < 0 ? `${role.alter < -1 ? 'double ' : ''}flat ` : role.alter > 0 ? 'sharp ' : '';
  const major = role.degree === 7 && role.alter === 0 ? 'major ' : '';
  return `the ${flat}${major}${word}`;
}

/**
 * A pitch spelled by what it does: over a chord, by its role (the ♭3 of E is G natural); without one, by the key. The key
 * spells as well what is of the song's scale and not of the chord (E over Eb7 in C), and where the role's own letter
 * would need three signs, or two for a note that is not of the chord.
 */
export function spell(midi: number, chord: Chord | undefined, key: SongKey): Pitch {
  if (endsInQuarter(midi)) return quarterBelow(spell(midi + QUARTER, chord, key));
  if (!chord) return spellInKey(midi, key);
  const role = roleOf(midi, chord, key);
  if (!role.tone && isInScale(midi, key) && !(role.semitones === 6 && isBluesFour(chord, key)))
    return spellInKey(midi, key);
  // A sharp ninth is written as the blues writes it, a flat third: G over E7, not F double sharp.
  const degree = role.degree === 2 && role.alter > 0 ? 3 : role.degree;
  const name: PitchClass = nameAbove(chord.root, degree, role.semitones);
  return (Math.abs(name.alter) <= (role.tone ? 2 : 1) && pitchNamed(name, midi)) || spellInKey(midi, key);
}
