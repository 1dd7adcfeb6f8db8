/** Whether two texts of a block say the same. */

import type { BlockTree, Item, Syllable } from '../tree.ts';
import { isPlainLine } from './bars.ts';

/** Whether two trees have the same settings, phrases, music, words and problems. Where things are written makes no difference. */
export const saysTheSame = (a: BlockTree, b: BlockTree): boolean => meaningOf(a) === meaningOf(b);

function meaningOf({ header, music, phrases, diagnostics }: BlockTree): string {
  return withoutPlacesOf({
    header: [...header.values()],
    music: soundingItems(music),
    words: wordsByNote(music),
    phrases: [...phrases.values()].map((phrase) => ({ ...phrase, items: soundingItems(phrase.items) })),
    codes: diagnostics.map(({ code }) => code),
  });
}

/** As data without places; spaces in the values of settings are alike. */
const withoutPlacesOf = (tree: unknown): string =>
  JSON.stringify(tree, (key, part: unknown) => {
    if (/^(?:s|keyS|nameS|valueS)pan$/.test(key)) return undefined;
    return key === 'value' && typeof part === 'string'
      ? part.replace(/\s*\|\s*|\s+/g, (found) => found.trim() || ' ')
      : part;
  });

/** The music without line ends, and without the second of two plain bar lines where a line ends and the next begins. */
function soundingItems(items: readonly Item[]): Item[] {
  const found: Item[] = [];
  let isLineBegun = false;
  for (const item of items) {
    if (item.kind === 'line-end') isLineBegun = true;
    if (item.kind === 'line-end' || item.kind === 'words' || item.kind === 'syllables') continue;
    if (!isLineBegun || !isPlain(item) || !isPlain(found.at(-1))) found.push(item);
    isLineBegun = false;
  }
  return found;
}

const isPlain = (item: Item | undefined): boolean => item?.kind === 'bar' && isPlainLine(item);

/** The syllables by verse, each with the number of its note in the block; quotations are not counted. */
function wordsByNote(music: readonly Item[]): Record<string, (readonly [number, Syllable])[]> {
  const found: Record<string, (readonly [number, Syllable])[]> = {};
  let count = 0;
  let from = 0;
  let verse = 0;
  /** Where the line of music before began. */
  let lineFrom = 0;
  let hasMusic = false;
  for (const item of music) {
    if (item.kind === 'line-end') {
      if (hasMusic) [from, verse, lineFrom] = [lineFrom, 0, count];
      else lineFrom = count;
      hasMusic = false;
    } else if (item.kind === 'words' || item.kind === 'syllables') {
      if (item.kind === 'words') verse = item.verse ?? verse + 1;
      const name = item.kind === 'words' ? `verse ${verse}` : 'syllables';
      const own = item.syllables.map((syllable, index) => [from + index, syllable] as const);
      // A line that was divided has those of two lines by turns.
      found[name] = [...(found[name] ?? []), ...own].sort(([one], [other]) => one - other);
    } else if (item.kind !== 'bar') {
      hasMusic = true;
      count += attacksIn(item);
    }
  }
  return found;
}

const attacksIn = (item: Item): number => {
  if (item.kind === 'note') return 1;
  return item.kind === 'group' ? item.items.reduce((sum, one) => sum + attacksIn(one), 0) : 0;
};
