/** The known word that an unknown one was probably meant to be. */

const CARDINALS = 'one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen';
const ORDINALS =
  'first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth sixteenth';
const [cardinals, ordinals] = [CARDINALS.split(' '), ORDINALS.split(' ')];
const NUMBERS: ReadonlyMap<string, number> = new Map(
  [cardinals, ordinals].flatMap((words) => words.map((word, index) => [word, index + 1])),
);

/** The words of a name as far as mistakes of writing go: small letters without accents, and numbers in words. */
function wordsOf(name: string): string[] {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/\b1[/⁄]2\b/g, 'half ')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase();
  return (plain.match(/\d+(?:(?:st|nd|rd|th)\b)?|\p{L}+/gu) ?? []).map((word) => {
    const number = /^\d+/.exec(word)?.[0];
    if (number === undefined) return word;
    return (word === number ? cardinals : ordinals)[Number(number) - 1] ?? word;
  });
}

/** Known names are compared again and again: their words, and these joined. */
interface Worded {
  readonly words: readonly string[];
  readonly plain: string;
}
const worded = new Map<string, Worded>();
const MOST_WORDED = 10_000;

function wordedOf(name: string): Worded {
  let found = worded.get(name);
  if (!found) {
    const words = wordsOf(name);
    found = { words, plain: words.join('-') };
    if (worded.size >= MOST_WORDED) worded.clear();
    worded.set(name, found);
  }
  return found;
}

/** Of longer lists only the first names are compared, so that many unknown names among many known ones stay quick. */
const MOST_KNOWN = 1000;

/** The numbers a text names, in figures or in words: `6-8`, `second`, `120 bpm`, `92.5`. */
export const numbersIn = (text: string): number[] =>
  (text.toLowerCase().match(/\d+(?:[.,]\d+)?|[a-z]+/g) ?? []).flatMap(
    (word) => NUMBERS.get(word) ?? (/^\d/.test(word) ? Number(word.replace(',', '.')) : []),
  );

/** What may be meant: a name, or a name under another one. */
export type Known = string | readonly [name: string, meant: string];

/**
 * The one of the known names that a mistyped one is nearest to, or undefined where none is near, or several are for the
 * words they share with it. Capitals, accents, hyphens, the order of words and numbers in figures make no difference.
 */
export function nearest(written: string, known: Iterable<Known>): string | undefined {
  const words = wordsOf(written);
  const plain = words.join('-');
  if (plain === '') return undefined;
  // A third of the letters may be wrong; more is another word.
  const limit = Math.max(1, Math.floor(Math.min(plain.length, written.length) / 3)) + 1;
  let best: { readonly meant: string | undefined; readonly score: number } = { meant: undefined, score: 0 };
  let compared = 0;
  for (const entry of known) {
    if (compared++ >= MOST_KNOWN) break;
    const [name, meant] = typeof entry === 'string' ? [entry, entry] : entry;
    const { words: others, plain: other } = wordedOf(name);
    const distance = editDistance(plain, other, limit);
    const alike = distance < limit && distance < plain.length ? 1 - (2 * distance) / (plain.length + 2) : 0;
    const shared = sharedWords(words, others);
    const score = Math.max(alike, shared);
    if (score > best.score) best = { meant, score };
    // A shared word says nothing where other names have it too.
    else if (score === best.score && shared === score && meant !== best.meant) best = { meant: undefined, score };
  }
  return best.meant;
}

/** How much of their words two names share, of 1, where one has all the words of the other; otherwise 0. */
function sharedWords(some: readonly string[], others: readonly string[]): number {
  const [few, many] = some.length <= others.length ? [some, others] : [others, some];
  if (!few.every((word) => many.some((other) => isSameWord(word, other)))) return 0;
  // Short words are in many names by chance.
  return few.length === many.length || few.join('').length >= 4 ? few.length / many.length : 0;
}

function isSameWord(one: string, other: string): boolean {
  if (one === other) return true;
  const [number, another] = [NUMBERS.get(one), NUMBERS.get(other)];
  if (number !== undefined && another !== undefined) return number === another;
  let stem = 0;
  while (stem < one.length && one[stem] === other[stem]) stem++;
  return stem >= 4 && [one, other].every((word) => /^(?:e?s|ed|ing)?$/.test(word.slice(stem)));
}

/** Insertions, deletions, substitutions and swaps of neighbours; gives up past `limit`. */
function editDistance(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) >= limit) return limit;
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let value = Math.min((previous[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (previous[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1);
      row.push(value);
    }
    [before, previous] = [previous, row];
  }
  return previous[b.length] ?? limit;
}

/** The names of a table: each entry by its id and by its title. */
export const knownNames = (table: Iterable<{ readonly id: string; readonly title: string }>): Known[] =>
  [...table].flatMap(({ id, title }): Known[] => [id, [title, id]]);

/** Names that things had before, each with the name of the thing now. */
export type FormerNames = ReadonlyMap<string, string>;

/** What an unknown name was before, or otherwise the nearest of the known names: facts for a problem. */
export function nearestNow(
  written: string,
  known: Iterable<Known>,
  former: FormerNames | undefined,
): { readonly nearest: string | undefined; readonly renamed?: true } {
  const now = former?.get(written);
  return now === undefined ? { nearest: nearest(written, known) } : { nearest: now, renamed: true };
}
