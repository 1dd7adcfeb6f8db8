/** What is said of words of the music that are spelled as elsewhere. */
import { plural } from '../../diagnostics/catalogue.ts';
import { isChordSymbol } from '../../harmony/symbol.ts';
import { nameOfText } from '../characters.ts';

/** What is spelled in another way. */
export type SpellingKind = keyof typeof SPELLINGS;

/** Why each kind is no slot. */
export const SPELLINGS = {
  rest: 'a rest is a period',
  ellipsis: 'each rest is a period',
  dash: 'a hold is =, and a rest is a period',
  arrow: 'a blow note is a number alone, and a draw note has a minus before it',
  'breath-letter': 'a blow note is a number alone, and a draw note has a minus before it',
  'sign-behind': 'the sign of the breath is before the hole',
  'bend-letter': "each half step of a bend is a ' behind the hole",
  'bend-quotes': "each half step of a bend is a ' behind the hole",
  'over-letters': 'an overblow or an overdraw has an o behind the hole',
  comma: 'slots have only spaces between them',
  glued: 'notes have spaces between them',
  together: 'holes that are played together are in parentheses',
  'bar-line': 'a bar line is |, and the last one |]',
  chord: 'a chord symbol is in quotation marks',
} as const;

/** The chord symbol that a word is without its quotation marks, in single ones, or with the second one alone. */
export function unquotedChord(text: string): string | undefined {
  const bare = /^'(.+)'$/.exec(text)?.[1] ?? text.replace(/"$/, '');
  // A lowered step is none alone.
  return /^[A-GIViv#b♭♯N]/.test(bare) && !/^[b#♭♯]?\d/.test(bare) && isChordSymbol(bare) ? bare : undefined;
}

/** What is said of words that are spelled in another way. */
export interface SpellingFacts {
  readonly kind: SpellingKind;
  /** Each word and what it means, the first one first. */
  readonly pairs: readonly (readonly [written: string, meant: string])[];
  /** How many there are in the block. */
  readonly count: number;
  readonly isCertain: boolean;
}

/** What is wrong, for a person. */
export function spellingMessage({ kind, pairs, count }: SpellingFacts): string {
  const written = nameOfText(pairs[0]?.[0] ?? '');
  const others = count === 1 ? '' : ` The block has ${plural(count, 'place')} of this kind.`;
  if (kind === 'chord') return `A chord symbol is in quotation marks ("), and “${written}” is not.${others}`;
  return `“${written}” is ${kind === 'bar-line' ? 'no bar line' : 'not a slot'}: ${SPELLINGS[kind]}.${others}`;
}

/** Of many different words so many are listed. */
const MOST_PAIRS = 4;

/** What to write instead, for a person. */
export function spellingHelp({ kind, pairs, isCertain }: SpellingFacts): string {
  const [first] = pairs;
  if (kind === 'dash') return 'Write = where the note before goes on, and . where there is silence.';
  const letter = kind === 'breath-letter' && pairs.length === 1 ? unquotedChord(first?.[0] ?? '') : undefined;
  if (letter !== undefined) return `Write ${first?.[1]} for the note, or "${letter}" for the chord.`;
  if (pairs.length === 1) return isCertain ? `Write ${first?.[1]}` : `Did you mean “${first?.[1]}”?`;
  const list = pairs.slice(0, MOST_PAIRS).map(([written, meant]) => `${meant} for ${nameOfText(written)}`);
  const rest = pairs.length > MOST_PAIRS ? ' …' : '';
  return isCertain ? `Write ${list.join(', ')}${rest}` : `Did you mean ${list.join(', ')}${rest}?`;
}
