/** Numerals of a minor song that count from the major scale where the author may have counted from the minor one. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { SongKey } from '../harmony/key.ts';
import { readNumeral } from '../harmony/numeral.ts';
import { report } from './problems.ts';
import type { BlockTree, Item } from './tree.ts';

/** The steps that are lower in minor. */
const LOWERED = new Set([3, 6, 7]);

/** Reports each chord on such a step that a block writes itself, in its music, its phrases and its list of chords. */
export function checkNumerals(tree: BlockTree, { mode }: SongKey, diagnostics: Diagnostic[]): void {
  if (mode !== 'minor') return;
  const items = [...tree.music, ...[...tree.phrases.values()].flatMap((phrase) => phrase.items)];
  for (const { text, span } of [...items.flatMap(chordsIn), ...listed(tree)]) {
    const numeral = readNumeral(text);
    if (!numeral || numeral.minor || !LOWERED.has(numeral.step) || /^[b♭#♯]/.test(text)) continue;
    if (/^(?:dim|o|°)/.test(numeral.suffix)) continue;
    diagnostics.push(report('numeral-in-minor', span, { text, lowered: `b${text}` }));
  }
}

interface WrittenChord {
  readonly text: string;
  readonly span: TextSpan;
}

const chordsIn = (item: Item): WrittenChord[] =>
  item.kind === 'chord' ? [item] : item.kind === 'group' ? item.items.flatMap(chordsIn) : [];

function listed({ header }: BlockTree): WrittenChord[] {
  const line = header.get('chords');
  if (!line) return [];
  return [...line.value.matchAll(/[^\s|,]+/g)].map(({ 0: text, index }) => {
    const from = line.valueSpan.from + index;
    return { text, span: { from, to: from + text.length } };
  });
}
