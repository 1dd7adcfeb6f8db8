/**
 * Chord qualities: what may follow the root of a chord symbol or the step of a numeral, and the tones it means.
 * The spellings are those of lead sheets; tests compare both with two general-purpose chord libraries.
 */
import { itemAt, present } from '../values/checked.ts';
import { type ChordTone, DEGREES } from './chord.ts';

/** What a suffix means. */
export interface Quality {
  /** The one spelling under which a chord of this quality is shown and compared: `m7` for `min7`, `mi7` and `-7`. */
  readonly suffix: string;
  /** Root first, upwards. */
  readonly tones: readonly ChordTone[];
}

/** Words with several spellings, which stand in braces in the table below. */
const WORDS: Readonly<Record<string, readonly string[]>> = {
  maj: ['maj', 'Maj', 'ma', 'Ma', 'M'],
  m: ['m', 'min', 'Min', 'mi', 'Mi', '-'],
  dim: ['dim', '°', 'o'],
  aug: ['aug', '+'],
  half: ['ø', 'Ø', 'h'],
  // Alone it means the seventh as well.
  delta: ['Δ', '^'],
};

/**
 * [the suffix shown, its tones as degrees of the major scale, its other spellings]. An eleventh leaves out the third it would
 * clash with. Common practice of lead sheets, no source; the tones are those of the chord dictionary of the library tonal.
 */
const TABLE: readonly (readonly [suffix: string, tones: string, spellings: string])[] = [
  ['', '1 3 5', '{maj}'],
  ['m', '1 b3 5', '{m}'],
  ['dim', '1 b3 b5', '{dim} {m}b5'],
  ['aug', '1 3 #5', '{aug} #5 +5 {maj}#5'],
  ['5', '1 5', 'no3'],
  ['sus2', '1 2 5', ''],
  ['sus4', '1 4 5', 'sus'],
  ['sus24', '1 2 4 5', 'sus2sus4 sus4sus2'],
  ['(b5)', '1 3 b5', '{maj}b5'],
  ['m#5', '1 b3 #5', '{m}#5 {m}+'],
  ['add9', '1 3 5 9', '{maj}add9 add2 2'],
  ['m(add9)', '1 b3 5 9', '{m}add9 {m}add2 {m}2'],
  ['add11', '1 3 5 11', 'add4'],
  ['m(add11)', '1 b3 5 11', '{m}add11 {m}add4'],
  ['sus4add9', '1 4 5 9', 'susadd9'],
  ['6', '1 3 5 6', '{maj}6 add6 add13'],
  ['m6', '1 b3 5 6', '{m}6 {m}add6'],
  ['6/9', '1 3 5 6 9', '69 {maj}6/9 {maj}69 6add9'],
  ['m6/9', '1 b3 5 6 9', '{m}6/9 {m}69 {m}6add9'],
  ['7', '1 3 5 b7', 'dom dom7'],
  ['maj7', '1 3 5 7', '{maj}7 {delta}7 {delta}'],
  ['m7', '1 b3 5 b7', '{m}7'],
  ['m(maj7)', '1 b3 5 7', '{m}{maj}7 {m}{delta}7 {m}{delta}'],
  ['dim7', '1 b3 b5 bb7', '{dim}7'],
  ['dim(maj7)', '1 b3 b5 7', '{dim}{maj}7'],
  ['m7b5', '1 b3 b5 b7', '{half} {half}7'],
  ['7#5', '1 3 #5 b7', '{aug}7 7{aug}'],
  ['maj7#5', '1 3 #5 7', '{aug}{maj}7 {maj}7{aug}'],
  ['m7#5', '1 b3 #5 b7', '{m}7{aug}'],
  ['7add13', '1 3 5 b7 13', '67'],
  ['7sus2', '1 2 5 b7', ''],
  ['7sus4', '1 4 5 b7', '7sus'],
  ['maj7sus4', '1 4 5 7', '{maj}7sus4 {maj}7sus'],
  ['7alt', '1 3 b5 #5 b7 b9 #9', 'alt alt7'],
  ['9', '1 3 5 b7 9', 'dom9'],
  ['maj9', '1 3 5 7 9', '{maj}9 {delta}9'],
  ['m9', '1 b3 5 b7 9', '{m}9'],
  ['m(maj9)', '1 b3 5 7 9', '{m}{maj}9 {m}{delta}9'],
  ['m9b5', '1 b3 b5 b7 9', '{half}9'],
  ['9#5', '1 3 #5 b7 9', '{aug}9 9{aug}'],
  ['9sus4', '1 4 5 b7 9', '9sus'],
  ['11', '1 5 b7 9 11', ''],
  ['m11', '1 b3 5 b7 9 11', '{m}11'],
  ['m11b5', '1 b3 b5 b7 9 11', '{half}11'],
  ['13', '1 3 5 b7 9 13', ''],
  ['maj13', '1 3 5 7 9 13', '{maj}13 {delta}13'],
  ['m13', '1 b3 5 b7 9 11 13', '{m}13'],
  ['13sus4', '1 4 5 b7 9 13', '13sus'],
];

/** Half steps of the major scale's degrees, from the first. */
const MAJOR_SCALE = [0, 2, 4, 5, 7, 9, 11];

/** `b7` as a tone: seven, lowered once. */
function toneOf(degree: string): ChordTone {
  const number = Number(degree.replace(/[b#]+/, ''));
  const place = (number - 1) % 7;
  const alter = [...degree].reduce((sum, sign) => sum + (sign === 'b' ? -1 : sign === '#' ? 1 : 0), 0);
  return { degree: itemAt(DEGREES, place), semitones: (itemAt(MAJOR_SCALE, place) + alter + 12) % 12, number };
}

/** All spellings of a pattern: `{m}7` is `m7`, `min7`, `-7` … */
function spellingsOf(pattern: string): string[] {
  const match = /\{(\w+)\}/.exec(pattern);
  if (!match) return [pattern];
  return present(WORDS[itemAt(match, 1)], match[0]).flatMap((word) => spellingsOf(pattern.replace(match[0], word)));
}

/**
 * Without the signs that only divide: `m(maj7)` and `mmaj7`, `7(b9,#11)` and `7b9#11` are the same. A plain number in
 * parentheses is an added tone: `(9)` is `add9`, and no dominant ninth.
 */
const undivided = (suffix: string): string =>
  suffix
    .replace(/\((9|11|13)\)/g, 'add$1')
    .replace(/\(([^()]*)\)/g, '$1')
    .replace(/(?<=\d),(?=[b#+-])/g, '');

/** The qualities of the table, as the guide lists them. */
export const QUALITIES: readonly (Quality & { readonly spellings: readonly string[] })[] = TABLE.map(
  ([suffix, degrees, others]) => ({
    suffix,
    tones: degrees.split(' ').map(toneOf),
    spellings: [suffix, ...others.split(' ').filter(Boolean)].flatMap(spellingsOf),
  }),
);

const BY_SPELLING: ReadonlyMap<string, Quality> = new Map(
  QUALITIES.flatMap((quality) =>
    quality.spellings.map((spelling): [string, Quality] => [
      undivided(spelling),
      { suffix: quality.suffix, tones: quality.tones },
    ]),
  ),
);

/** Tones that are added to a chord, changed or left out: `add13`, `b9`, `#11`, `+5`, `-5`, `no5`. */
const ALTERATIONS = /(?:add(?:9|11|13|4|6)|(?:no|omit)[35]|[b#](?:5|9|11|13)|[+-]5|#4|b6)+$/;
/** What can be altered: chords with a sixth or a seventh, and nothing added. */
const canBeAltered = ({ suffix, tones }: Quality): boolean =>
  tones.some(({ degree }) => degree > 5) && !suffix.includes('add');

/** What a suffix means (`7`, `min7`, `7(b9)` …), or undefined where it is none that is in use. */
export function readQuality(text: string): Quality | undefined {
  const suffix = undivided(text.replaceAll('♭', 'b').replaceAll('♯', '#').replaceAll('º', '°').replaceAll('△', 'Δ'))
    // `7b9sus4` is `7sus4b9`: what is altered is named last.
    .replace(/^(\d+)((?:[b#]\d+)+)sus4?$/, '$1sus4$2');
  const plain = BY_SPELLING.get(suffix);
  if (plain) return plain;
  const match = ALTERATIONS.exec(suffix);
  const base = match && BY_SPELLING.get(suffix.slice(0, match.index));
  return base && canBeAltered(base) ? altered(base, match[0]) : undefined;
}

/** One alteration: `b` and `#` change a tone or bring an altered one, `add` adds a plain one, `no` leaves one out. */
interface Alteration {
  readonly verb: 'b' | '#' | 'add' | 'no';
  readonly tone: ChordTone;
}

const VERBS: Readonly<Record<string, Alteration['verb']>> = {
  '-': 'b',
  '+': '#',
  b: 'b',
  '#': '#',
  add: 'add',
  no: 'no',
  omit: 'no',
};

function readAlterations(text: string): Alteration[] {
  const read = [...text.matchAll(/(add|no|omit|[b#+-])(\d+)/g)].map(([, sign = '', digits = '']): Alteration => {
    const verb = present(VERBS[sign], sign);
    // Above a seventh, the fourth and the sixth are called eleventh and thirteenth.
    const number = digits === '4' ? '11' : digits === '6' ? '13' : digits;
    return { verb, tone: toneOf(verb === 'b' || verb === '#' ? verb + number : number) };
  });
  // What is left out is named last.
  return read.sort(
    (one, other) => Number(one.verb === 'no') - Number(other.verb === 'no') || byHeight(one.tone, other.tone),
  );
}

const byHeight = (one: ChordTone, other: ChordTone): number =>
  one.number - other.number || one.semitones - other.semitones;

/** A chord with what the alterations say; undefined where they contradict it or each other. */
function altered(base: Quality, text: string): Quality | undefined {
  const alterations = readAlterations(text);
  const suffix = base.suffix + alterations.map(({ verb, tone }) => verb + tone.number).join('');
  const tones = [
    ...base.tones.filter((own) => !alterations.some((each) => replaces(each, own))),
    ...alterations.filter(({ verb }) => verb !== 'no').map(({ tone }) => tone),
  ].sort(byHeight);
  const soundsTwice = new Set(tones.map(({ semitones }) => semitones)).size < tones.length;
  if (soundsTwice || alterations.some((each) => contradicts(each, base, alterations))) return undefined;
  return BY_SPELLING.get(undivided(suffix)) ?? { suffix, tones };
}

/** What is altered gives way to what replaces it, and a plain fifth to the flat thirteenth right above it. */
const replaces = ({ verb, tone }: Alteration, own: ChordTone): boolean =>
  (verb !== 'add' && tone.number === own.number) || (verb === 'b' && tone.number === 13 && own.semitones === 7);

/** Whether an alteration is about a tone that is altered already, that another one adds, or that is not there to be left out. */
function contradicts({ verb, tone }: Alteration, base: Quality, all: readonly Alteration[]): boolean {
  const own = base.tones.filter(({ number }) => number === tone.number);
  if (verb === 'no') return !own.some(({ semitones }) => semitones === tone.semitones || tone.number === 3);
  if (verb === 'add') return all.filter((other) => other.tone.number === tone.number).length > 1;
  return own.some(({ semitones }) => semitones !== toneOf(String(tone.number)).semitones);
}

/**
 * The same chord with a minor third, as small numerals ask for it: `7` is `m7`. A chord without a third, such as `sus4`, stays
 * what it is. Undefined where there is none.
 */
export function minorQuality(text: string): Quality | undefined {
  const quality = readQuality(text);
  const third = quality?.tones.find(({ degree }) => degree === 3)?.semitones;
  return third === 3 ? quality : (readQuality(`m${text}`) ?? (third === undefined ? quality : undefined));
}
