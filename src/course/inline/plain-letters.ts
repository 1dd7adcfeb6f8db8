/**
 * Pitches, keys, chords and harps that a text names in plain letters. They are right for one harp only. A capital A is an article more
 * often than a note; it is taken for a note where no sentence can begin.
 */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';

/** What a letter stands for. */
export type LetterKind = 'pitch' | 'key' | 'chord' | 'harp';

/** Letters that name something, or several things in a row: `G, B and D`. */
export interface PlainLetters {
  readonly span: TextSpan;
  readonly text: string;
  readonly kind: LetterKind;
}

const NAME = '[A-G](?:♭|♯|#|b(?!\\p{L}))?(?:(?: +|-)(?:flat|sharp|natural)\\b)?';
const MODE = ' +(?:major|minor|dorian|phrygian|lydian|mixolydian|locrian)\\b';
const SUFFIX =
  "(?:(?:maj|min|dim|aug|m)?(?:6|7|9|11|13)(?!\\d)|m(?![\\p{L}\\p{M}\\p{N}’'])|maj\\b|dim\\b|aug\\b|sus\\b)";
const WORD_END = "(?![\\p{L}\\p{M}\\p{N}_♭♯#]|['’-][\\p{L}\\p{N}])";

/** One thing named, with what is around it that tells its kind. */
const NAMED = new RegExp(
  `(?<![\\p{L}\\p{M}\\p{N}_♭♯#&.-]|[\\p{L}]['’]|[\\p{Ll}\\p{N}]/)(?:(?<harp>${NAME}(?: +(?:harp|harmonica)s?\\b))|(?<key>${NAME}${MODE})|(?<chord>[A-G](?:♭|♯|#|b)?${SUFFIX}${WORD_END})|(?<pitch>${NAME}${WORD_END}))`,
  'gu',
);

/** A letter behind one of these is the name of a part or of a choice. */
const PART =
  'part|section|strain|letter|side|track|group|row|column|tune|version|theme|verse|phrase|idea|riff|lick|exercise|example|option|point|step|line|figure|variation|take|team|grade|class|type|model|level|question|answer';
const NO_NOTE_BEFORE = new RegExp(
  `(?:\\b(?:(?:${PART}|plan|vitamin|appendix|hepatitis|category|chapter|bus|exit|gate|room)s?|appendices|categories|classes) +(?:[“"'‘(*_]*)|\\b[A-Z]\\. ?|& ?)$`,
  'i',
);
const NO_NOTE_AFTER =
  /^(?:\.(?:[A-Za-z]| [A-Z]\.| [a-z])| ?&|\/[a-z]|(?:(?:, +| +)(?:and +|or +)?[A-G]){0,3} +(?:part|section|strain|side|track|group|theme|verse|version|team|class|type|clef|movie|film)s?\b)/;
/** `A. First`, `B) Second`, `C. Parker`: where nothing or a sentence is before. */
const LISTED = /^(?:\)|\. +[\p{Lu}])/u;
/** What joins things that are named in a row. */
const JOINT = /^(?:, +(?:and +|or +)?| +and +| +or +| +to +|\/|–)$/;

/** The end of a line within a paragraph, with the signs of a block quote. */
const WRAP = /(?<!\s)\s*[\r\n][\s>]*/g;

/** Every place of a text that names a pitch, a key, a chord or a harp in plain letters; spans count from the start of the text. */
export function plainLettersIn(written: string): PlainLetters[] {
  // A line that is wrapped, in a block quote with its signs, is one text.
  const text = written.replace(WRAP, (gap) => ' '.repeat(gap.length));
  const found: { from: number; to: number; kind: LetterKind }[] = [];
  /** Where the last letter ends that names a part or a choice: those after it in its row do as well. */
  let other = -1;
  for (const match of text.matchAll(NAMED)) {
    const { index: from, groups = {} } = match;
    const to = from + match[0].length;
    const before = text.slice(Math.max(0, from - 40), from);
    const after = text.slice(to, to + 40);
    if (isOther(before, after) || (other >= 0 && JOINT.test(text.slice(other, from)))) {
      other = to;
      continue;
    }
    // `A flat`, `A minor`, `A harp` and `Am I` may be no names, and `A♭` is one.
    if (/^A(?: |m?$)/.test(match[0]) && !isNote(before, after)) continue;
    const kind = kindOf(groups, before, after);
    const last = found.at(-1);
    if (last && last.kind === kind && JOINT.test(text.slice(last.to, from))) last.to = to;
    else found.push({ from, to, kind });
  }
  return found.map(({ from, to, kind }) => ({
    span: { from, to },
    text: written.slice(from, to).replace(WRAP, ' '),
    kind,
  }));
}

/** Whether a letter stands for something else than music. */
const isOther = (before: string, after: string): boolean =>
  NO_NOTE_BEFORE.test(before) ||
  NO_NOTE_AFTER.test(after) ||
  (/(?:^|[.!?:]\s+)[*_“"(]*$/.test(before) && LISTED.test(after));

/**
 * A capital A alone, where no sentence begins and no title has it as its article; at the beginning of a sentence only before what an
 * article cannot be before.
 */
const isNote = (before: string, after: string): boolean => {
  if (/^(?:, +[A-G]\b| +and +[A-G]\b| +is +(?:the|an?|on|draw|blow)\b|[.;!?])/.test(after)) return true;
  // `Play A Riff`, `Am I`.
  if (/^[ “"*_`]+(?:[\p{Lu}][\p{Ll}’']|I\b)/u.test(after)) return false;
  // Behind a bracket may be a sentence, unless the bracket closes at once.
  if (/\([*_`]*$/.test(before)) return /^(?:[),;]| +(?:and|or|on)\b)/.test(after);
  return /[\p{Ll}\d,;][*_`]* +[*_`]*$/u.test(before);
};

function kindOf(groups: Readonly<Record<string, string | undefined>>, before: string, after: string): LetterKind {
  if (groups['harp'] !== undefined) return 'harp';
  if (groups['chord'] !== undefined || /\bchords? +of +$/.test(before) || /^ +chords?\b/.test(after)) return 'chord';
  const isKey =
    groups['key'] !== undefined || /\b(?:keys? +of|plays?(?:ed)? +in|song +in|tune +in|blues +in) +$/.test(before);
  if (isKey) return 'key';
  return /\b(?:harps?|harmonica) +in +$|\b(?:low|high) +$/.test(before) ? 'harp' : 'pitch';
}
