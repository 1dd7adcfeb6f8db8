// Chord symbols: their spellings, their tones, their roots.
// Tones: the usual stacks of thirds as chord formula tables give them (two tables read: smithfowler.org "Chord Formulas"
// and oer4.com "Dominant & Altered Chords"; the rest common practice). Where they differ: 11 without third, 13 without 11.

import type { Key, Mode } from './pitch.ts';
import { fifths, letterOf, MAJOR, mod12, nameAt, nameOnFifths, pcOf } from './pitch.ts';
import type { Random } from './random.ts';

export interface Quality {
  id: string;
  roles: Map<number, string>; // half steps above the root -> role
  names: string[]; // endings after a root's name
  capital: string[]; // endings after a capital numeral
  small: string[]; // endings after a small numeral
}

const HALF: Record<string, number> = {
  R: 0,
  b9: 1,
  '9': 2,
  '2': 2,
  '#9': 3,
  b3: 3,
  '3': 4,
  '4': 5,
  '11': 5,
  '#11': 6,
  b5: 6,
  '5': 7,
  '#5': 8,
  b13: 8,
  '6': 9,
  '13': 9,
  bb7: 9,
  b7: 10,
  '7': 11,
};
const pretty = (role: string): string => role.replaceAll('b', '♭').replaceAll('#', '♯');
const words = (text: string): string[] =>
  text
    .split(' ')
    .filter((w) => w !== '')
    .map((w) => (w === '~' ? '' : w));

/** In the lists of endings `~` is the empty ending. */
function quality(id: string, tones: string, names: string, capital = '', small = ''): Quality {
  const roles = new Map(words(tones).map((r) => [HALF[r]!, pretty(r)] as const));
  return { id, roles, names: words(names), capital: words(capital), small: words(small) };
}

const M7 = 'maj7 M7 Maj7 ma7 Δ Δ7';
export const QUALITIES: Quality[] = [
  quality('maj', 'R 3 5', '~', '~'),
  quality('min', 'R b3 5', 'm min mi -', '', '~'),
  quality('maj7', 'R 3 5 7', M7, M7),
  quality('7', 'R 3 5 b7', '7 7 7 dom7', '7'),
  quality('m7', 'R b3 5 b7', 'm7 min7 mi7 -7', '', '7'),
  quality('mM7', 'R b3 5 7', 'm(maj7) mM7 mMaj7 minmaj7', '', '(maj7) maj7'),
  quality('6', 'R 3 5 6', '6 maj6 M6', '6'),
  quality('m6', 'R b3 5 6', 'm6 min6', '', '6'),
  quality('69', 'R 3 5 6 9', '69 6/9', '69 6/9'),
  quality('m69', 'R b3 5 6 9', 'm6/9 m69', '', '6/9 69'),
  quality('9', 'R 3 5 b7 9', '9', '9'),
  quality('maj9', 'R 3 5 7 9', 'maj9 M9', 'maj9 M9'),
  quality('m9', 'R b3 5 b7 9', 'm9 min9', '', '9'),
  quality('11', 'R 5 b7 9 11', '11', '11'),
  quality('13', 'R 3 5 b7 9 13', '13', '13'),
  quality('7b9', 'R 3 5 b7 b9', '7b9', '7b9'),
  quality('7#9', 'R 3 5 b7 #9', '7#9', '7#9'),
  quality('7b5', 'R 3 b5 b7', '7b5', '7b5'),
  quality('7#5', 'R 3 #5 b7', '7#5 7+ aug7 +7', '7#5 7+ aug7 +7'),
  quality('7#11', 'R 3 5 b7 #11', '7#11', '7#11'),
  quality('dim', 'R b3 b5', 'dim o °', '° o', '° o'),
  quality('dim7', 'R b3 b5 bb7', 'dim7 o7 °7', '°7 o7', '°7 o7'),
  quality('m7b5', 'R b3 b5 b7', 'm7b5 ø ø7 min7b5', '', 'ø7 ø'),
  quality('aug', 'R 3 #5', 'aug +', 'aug +'),
  quality('sus4', 'R 4 5', 'sus4 sus', 'sus4 sus'),
  quality('sus2', 'R 2 5', 'sus2', 'sus2'),
  quality('7sus4', 'R 4 5 b7', '7sus4 7sus', '7sus4 7sus'),
  quality('9sus4', 'R 4 5 b7 9', '9sus4', '9sus4'),
  quality('add9', 'R 3 5 9', 'add9', 'add9'),
  quality('madd9', 'R b3 5 9', 'madd9 m(add9)', '', 'add9 (add9)'),
  quality('5', 'R 5', '5', '5'),
];
const byId = new Map(QUALITIES.map((q) => [q.id, q]));

/** A chord as written; its root's name is known only when the key is. */
export interface ChordSymbol {
  text: string;
  quality: Quality;
  numeral?: { degree: number; sign: number }; // degree 0 to 6
  of?: { degree: number; sign: number }; // V7/V: the numeral counts from this step as from a tonic
  name?: string; // the root as written
  bass?: string; // the note behind the slash of a name, where it is not the root
}

/** A chord with its root named. */
export interface Chord {
  root: string;
  bass?: string;
  step: number; // the letter of the root as written, counted from the tonic's: 0 to 6
  quality: Quality;
  tones: number[];
}

/** Written N.C.: from here on the accompaniment is silent (common practice of lead sheets, no source). */
const NO_CHORD: ChordSymbol = { text: 'N.C.', quality: quality('none', '', '') };
export const SILENCE: Chord = { root: '', step: 0, quality: NO_CHORD.quality, tones: [] };
export const isSilence = (symbol: ChordSymbol): boolean => symbol === NO_CHORD;

const ROMAN = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII'];

export function numeral(degree: number, sign: number, small: boolean, ending: string, quality: Quality): ChordSymbol {
  const figure = small ? ROMAN[degree]!.toLowerCase() : ROMAN[degree]!;
  const accidental = sign < 0 ? 'b' : sign > 0 ? '#' : '';
  return { text: accidental + figure + ending, quality, numeral: { degree, sign } };
}

/** `V7/ii`: an applied chord, borrowed from the key of the step it leads to (any textbook of harmony, from memory). */
function applied(r: Random, symbol: ChordSymbol): ChordSymbol {
  const [degree, sign] = r.weighted<[number, number]>([
    [[4, 0], 5],
    [[1, 0], 5],
    [[5, 0], 3],
    [[2, 0], 2],
    [[3, 0], 3],
    [[0, 0], 1],
    [[5, -1], 2],
    [[6, -1], 1],
    [[3, 1], 0.5],
  ]);
  const figure = r.chance(0.4) ? ROMAN[degree]!.toLowerCase() : ROMAN[degree]!;
  const accidental = sign < 0 ? 'b' : sign > 0 ? '#' : '';
  return { ...symbol, text: `${symbol.text}/${accidental}${figure}`, of: { degree, sign } };
}

/** For the named forms: 'I7', 'bVI7', 'i7'. */
export function plainNumeral(text: string): ChordSymbol {
  const [, accidental, figure, ending] = /^(b?)([IViv]+)(7?)$/.exec(text)!;
  const small = figure === figure!.toLowerCase();
  const id = small ? (ending === '7' ? 'm7' : 'min') : ending === '7' ? '7' : 'maj';
  return numeral(ROMAN.indexOf(figure!.toUpperCase()), accidental === 'b' ? -1 : 0, small, ending!, byId.get(id)!);
}

export function rootPc(symbol: ChordSymbol, tonic: number): number {
  if (isSilence(symbol)) return -1;
  if (symbol.name !== undefined) return pcOf(symbol.name);
  // Numerals are counted from the major scale of the tonic, also in minor (popular-music practice).
  const from = symbol.of === undefined ? tonic : tonic + MAJOR[symbol.of.degree]! + symbol.of.sign;
  return mod12(from + MAJOR[symbol.numeral!.degree]! + symbol.numeral!.sign);
}

/** What the third says; undefined for sus, power and eleventh chords. */
export function modeOf(symbol: ChordSymbol): Mode | undefined {
  if (symbol.quality.roles.get(4) === '3') return 'major';
  return symbol.quality.roles.get(3) === '♭3' ? 'minor' : undefined;
}

export function resolve(symbol: ChordSymbol, key: Key, features: Set<string>): Chord {
  if (isSilence(symbol)) return SILENCE;
  const { quality } = symbol;
  const tones = [...quality.roles.keys()].sort((a, b) => a - b);
  if (symbol.name !== undefined) {
    // More than bV or #VI away from the tonic, a root is meant as its enharmonic twin: C# in Db is the tonic.
    const away = fifths(symbol.name) - fifths(key.name);
    const place = away > 10 ? away - 12 : away < -6 ? away + 12 : away;
    const step = letterOf(nameOnFifths(place));
    return { root: symbol.name, step, quality, tones, ...(symbol.bass === undefined ? {} : { bass: symbol.bass }) };
  }
  const letters = symbol.numeral!.degree + (symbol.of?.degree ?? 0);
  const name = nameAt(letterOf(key.name) + letters, rootPc(symbol, key.tonic));
  let place = fifths(name);
  // Fb is -8, A# is 10. A name with two signs lies outside as well. Twelve fifths on is the enharmonic name.
  if (place < -8) place += 12;
  else if (place > 10) place -= 12;
  const root = nameOnFifths(place);
  if (root !== name) features.add('root-respelled');
  // A numeral keeps its step when its root is respelled, so that a note has one role on every harp.
  return { root, step: letters % 7, quality, tones };
}

export const sameChord = (a: Chord | undefined, b: Chord | undefined): boolean =>
  a === b ||
  (a !== undefined &&
    b !== undefined &&
    a.root === b.root &&
    a.bass === b.bass &&
    a.tones.every((t) => b.quality.roles.get(t) === a.quality.roles.get(t)) &&
    a.tones.length === b.tones.length);

// Names people write as roots: Gb to A# on the line of fifths; the rarer ones seldom.
const ROOTS: [string, number][] = [
  ['C', 6],
  ['G', 6],
  ['D', 6],
  ['A', 6],
  ['E', 6],
  ['B', 4],
  ['F', 6],
  ['Bb', 5],
  ['Eb', 5],
  ['Ab', 4],
  ['Db', 3],
  ['F#', 4],
  ['C#', 3],
  ['Gb', 2],
  ['G#', 2],
  ['D#', 1],
  ['A#', 1],
];

/** A random symbol. `minor` is only a leaning. */
export function randomSymbol(r: Random, tonic: number, minor: boolean, useNames: number): ChordSymbol {
  if (r.chance(0.05)) return NO_CHORD;
  const common = ['7', 'maj', 'min', 'm7', 'maj7'];
  const q = (list: Quality[]): Quality => {
    const usual = list.filter((x) => common.includes(x.id));
    return usual.length > 0 && r.chance(0.5) ? r.pick(usual) : r.pick(list);
  };
  if (r.chance(useNames)) {
    const near = ROOTS.filter(([n]) => [0, 5, 7, 2, 9, 10].includes(mod12(pcOf(n) - tonic)));
    const name = r.weighted(r.chance(0.7) ? near : ROOTS);
    const quality = q(QUALITIES);
    const symbol = { text: name + r.pick(quality.names), quality, name };
    if (!r.chance(0.15)) return symbol;
    // Mostly an inversion, else any note.
    const tone = mod12(pcOf(name) + (r.chance(0.7) ? r.pick([...quality.roles.keys()]) : r.int(0, 11)));
    const bass = r.pick(ROOTS.map(([n]) => n).filter((n) => pcOf(n) === tone));
    return { ...symbol, text: `${symbol.text}/${bass}`, ...(bass === name ? {} : { bass }) };
  }
  const [degree, sign] = r.weighted<[number, number]>([
    [[0, 0], 10],
    [[3, 0], 8],
    [[4, 0], 8],
    [[1, 0], 4],
    [[5, 0], 4],
    [[2, 0], 2],
    [[6, 0], 3],
    [[1, -1], 1.5],
    [[2, -1], 2],
    [[4, -1], 0.7],
    [[5, -1], 2],
    [[6, -1], 3],
    [[3, 1], 2.5],
    [[0, 1], 1],
    [[1, 1], 0.7],
    [[4, 1], 1],
  ]);
  const smallChance = [minor ? 0.8 : 0.12, 0.7, 0.6, minor ? 0.7 : 0.2, 0.2, 0.6, 0.7][degree]!;
  const small = r.chance(sign < 0 ? 0.15 : smallChance);
  const list = QUALITIES.filter((x) => (small ? x.small : x.capital).length > 0);
  const quality = q(list);
  const symbol = numeral(degree, sign, small, r.pick(small ? quality.small : quality.capital), quality);
  return r.chance(0.15) ? applied(r, symbol) : symbol;
}
