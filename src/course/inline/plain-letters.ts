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

const NAME = '[A-G](?:♭|♯|#|b(?![a-z]))?(?:[ -](?:flat|sharp|natural)\\b)?';
const MODE = ' (?:major|minor|dorian|phrygian|lydian|mixolydian|locrian)\\b';
const SUFFIX = "(?:(?:maj|min|dim|aug|m)?(?:6|7|9|11|13)(?!\\d)|m(?![\\w’'])|maj\\b|dim\\b|aug\\b|sus\\b)";
const WORD_END = "(?![\\w♭♯#]|['’-]\\w)";

/** One thing named, with what is around it that tells its kind. */
const NAMED = new RegExp(
  `(?<![\\w♭♯#&./-])(?:(?<harp>${NAME}(?: (?:harp|harmonica)s?\\b))|(?<key>${NAME}${MODE})|(?<chord>[A-G](?:♭|♯|#|b)?${SUFFIX}${WORD_END})|(?<pitch>${NAME}${WORD_END}))`,
  'g',
);

/** A letter behind these is the name of a part, a side, a strain; behind a full stop and a letter it is an initial. */
const NO_NOTE_BEFORE =
  /(?:\b(?:parts?|sections?|strains?|letters?|sides?|tracks?|groups?|plan|vitamin|rows?|columns?|tunes?|versions?) |\b[A-Z]\. ?)$/i;
/** `D.C.`, `B. B. King`. */
const NO_NOTE_AFTER = /^\.(?:[A-Za-z]| [A-Z]\.)/;
/** What joins things that are named in a row. */
const JOINT = /^(?:, (?:and |or )?| and | or | to |\/|–)$/;

/** Every place of a text that names a pitch, a key, a chord or a harp in plain letters; spans count from the start of the text. */
export function plainLettersIn(text: string): PlainLetters[] {
  const found: PlainLetters[] = [];
  for (const match of text.matchAll(NAMED)) {
    const { index: from, groups = {} } = match;
    const to = from + match[0].length;
    const before = text.slice(Math.max(0, from - 40), from);
    if (NO_NOTE_BEFORE.test(before) || NO_NOTE_AFTER.test(text.slice(to, to + 4))) continue;
    const after = text.slice(to, to + 20);
    // `A flat`, `A minor` and `A harp` may begin with an article, and `A♭` may not.
    if (/^A(?: |$)/.test(match[0]) && !isNote(before, after)) continue;
    const kind = kindOf(groups, before, after);
    const last = found.at(-1);
    if (last && last.kind === kind && JOINT.test(text.slice(last.span.to, from)))
      found[found.length - 1] = { span: { from: last.span.from, to }, text: text.slice(last.span.from, to), kind };
    else found.push({ span: { from, to }, text: match[0], kind });
  }
  return found;
}

/** A capital A alone, where no sentence begins; at its beginning only before what an article cannot be before. */
const isNote = (before: string, after: string): boolean =>
  /[\p{Ll}\d,;][*_`]* [*_`(]*$/u.test(before) ||
  /^(?:, [A-G]\b| and [A-G]\b| is (?:the|an?|on|draw|blow)\b|[.;!?])/.test(after);

function kindOf(groups: Readonly<Record<string, string | undefined>>, before: string, after: string): LetterKind {
  if (groups['harp'] !== undefined) return 'harp';
  if (groups['chord'] !== undefined || /\bchords? of $/.test(before) || /^ chords?\b/.test(after)) return 'chord';
  const isKey =
    groups['key'] !== undefined || /\b(?:keys? of|plays?(?:ed)? in|song in|tune in|blues in) $/.test(before);
  if (isKey) return 'key';
  return /\b(?:harps?|harmonica) in $|\b(?:low|high) $/.test(before) ? 'harp' : 'pitch';
}
