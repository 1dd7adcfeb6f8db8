/** Suggestions for a setting's value that is written in other words or signs than Reedway reads. */
import { type Known, nearest, numbersIn } from '../diagnostics/nearest.ts';
import { ordinal, POSITIONS, positionName } from '../instrument/position.ts';
import { gcd } from '../time/fraction.ts';

/** For each setting, values that may be meant, the most likely first. The setting's reader decides whether one is valid. */
export const SUGGESTIONS = {
  harp: (text) => {
    const name = text
      .replace(/\b(?:harp|harmonica|key|of|in|the|major|maj)\b/gi, ' ')
      .replace(/(?<=\b[A-G])\s+(?=[#♯])/gi, '')
      .replace(/[\s-]*\bflat\b|(?<=[A-Ga-g])flat\b/gi, 'b')
      .replace(/[\s-]*\bsharp\b|(?<=[A-Ga-g])sharp\b/gi, '#');
    const key = /(?<![A-Za-z])[A-G][b#♭♯]?(?![A-Za-z])/i.exec(name.replace(/low|high/gi, ' '))?.[0];
    if (key === undefined || /[^\sA-G#♭♯]/i.test(name.replace(/low|high/gi, ''))) return [];
    const register = /low|high/i.exec(name)?.[0].toLowerCase();
    const plain = key.charAt(0).toUpperCase() + key.slice(1);
    return [plain, FLATS[plain] ?? ''].map((one) => (register === undefined ? one : `${register} ${one}`));
  },
  position: (text) => {
    const names = POSITIONS.flatMap((position): Known[] =>
      [ordinal(position), positionName(position), ROMANS[position - 1]].flatMap((name) =>
        name === undefined ? [] : [[name, `${position}`]],
      ),
    );
    return [nearest(text, names) ?? '', ...wholeNumbers(text)];
  },
  key: (text) => {
    const tonic = /^[A-Ga-g][b#♭♯]?(?=m?(?: |$))/.exec(text)?.[0] ?? '';
    const rest = text
      .slice(tonic.length)
      .replace(/\bkey\b|\bmode\b/gi, ' ')
      .trim();
    const mode =
      rest === 'm'
        ? 'minor'
        : rest === '' && tonic !== ''
          ? 'major'
          : nearest(
              rest,
              MODE_WORDS.flatMap(([mode, ...words]) => named(mode, ...words)),
            );
    if (mode === undefined) return [];
    return [tonic === '' ? mode : `${tonic.charAt(0).toUpperCase()}${tonic.slice(1)} ${mode}`];
  },
  meter: (text) => [
    numbersIn(text).slice(0, 2).join('/'),
    nearest(text, [...named('4/4', 'common', 'c'), ...named('2/2', 'cut', 'alla breve'), ...named('3/4', 'waltz')]) ??
      '',
  ],
  tempo: (text) => {
    const likely = numbersIn(text).filter((number) => number >= 20 && number <= 400);
    return likely.length === 1 ? [`${likely[0]}`] : [];
  },
  feel: (text) => [
    numbersIn(text).join(':'),
    nearest(text, [
      ...named('straight', 'straight', 'even', 'eighths', 'plain', 'none'),
      ...named('shuffle', 'shuffle', 'swing', 'swung', 'triplets'),
    ]) ?? '',
  ],
  slot: (text) => {
    const [dots, plain] = [/dot/i.test(text) ? 3 : 1, text.replace(/dotted|dot|notes?/gi, ' ')];
    const value = nearest(plain, NOTE_VALUES) ?? '';
    const [over, under] = numbersIn(plain);
    return [
      over === undefined || under === undefined ? '' : reduced(over * dots, under * (dots === 3 ? 2 : 1)),
      under === undefined && value !== '' ? reduced(dots, Number(value) * (dots === 3 ? 2 : 1)) : '',
      under === undefined && over !== undefined ? `1/${over}` : '',
    ];
  },
  mouth: (text) => [
    nearest(text, [
      ...named('lips', 'lips', 'lip pursing', 'pucker', 'puckered', 'purse', 'pursed'),
      ...named('tongue', 'tongue', 'tongue block', 'tongue blocking', 'block', 'TB', 'U-block'),
    ]) ?? '',
  ],
} satisfies Readonly<Record<string, (text: string) => readonly string[]>>;

const named = (meant: string, ...names: readonly string[]): Known[] => names.map((name): Known => [name, meant]);

const wholeNumbers = (text: string): string[] => numbersIn(text).filter(Number.isInteger).map(String);

const ROMANS = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X', 'XI', 'XII'];

const NOTE_VALUES: readonly Known[] = [
  ['whole', '1'],
  ['half', '2'],
  ['quarter', '4'],
  ['eighth', '8'],
  ['sixteenth', '16'],
  ['thirty second', '32'],
];

/** Keys nobody stamps on a cover, by those they sound as. */
const FLATS: Readonly<Record<string, string>> = {
  'A#': 'Bb',
  'B#': 'C',
  'D#': 'Eb',
  'E#': 'F',
  'G#': 'Ab',
  Cb: 'B',
  Fb: 'E',
};

function reduced(over: number, under: number): string {
  const divisor = gcd(over, under) || 1;
  return `${over / divisor}/${under / divisor}`;
}

/** Modes, and other words for them. */
const MODE_WORDS: readonly (readonly [string, ...string[]])[] = [
  ['major', 'major', 'maj', 'ionian'],
  ['minor', 'minor', 'min', 'aeolian', 'natural minor'],
  ['dorian', 'dorian', 'dor'],
  ['phrygian', 'phrygian', 'phr'],
  ['lydian', 'lydian', 'lyd'],
  ['mixolydian', 'mixolydian', 'mix', 'mixo'],
  ['locrian', 'locrian', 'loc'],
];

/** Embouchures, and other words for them. */
export const MOUTH_WORDS: readonly Known[] = [
  ...named('lips', 'lips', 'lip', 'pucker', 'purse'),
  ...named('tongue', 'tongue', 'block', 'tongue block', 'TB'),
];

/** Other words for marks of a note. */
export const OTHER_MARK_WORDS: readonly Known[] = [
  ...named('pp', 'pianissimo', 'very soft'),
  ...named('p', 'piano', 'soft', 'softly', 'quiet', 'quietly'),
  ...named('f', 'forte', 'loud', 'loudly', 'strong'),
  ...named('ff', 'fortissimo', 'fff'),
  ...named('cresc', 'crescendo', 'louder', 'swell', 'grow'),
  ...named('dim', 'diminuendo', 'decresc', 'decrescendo', 'softer', 'fade'),
  ...named('tenuto', 'ten', 'legato', 'long'),
  ...named('staccato', 'stacc', 'short'),
  ...named('breath', 'breathe', 'comma'),
  ...named('shake 5', 'trill', 'warble'),
  ...named('hand', 'hands', 'cup'),
  ...named('wah', 'wow', 'wa'),
  ...named('ghost', 'hint', 'dead'),
  ...named('fall', 'drop', 'doit'),
  ...named('dip', 'scoop'),
  ...named('accent', 'marcato', 'sfz', 'sforzando'),
];
