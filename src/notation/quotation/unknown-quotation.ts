/** What is said of a quotation of what is not there. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../../diagnostics/edit.ts';
import { nearest } from '../../diagnostics/nearest.ts';
import { type Missing, meantInstead, type ReadContext } from '../context.ts';
import { report } from '../problems.ts';
import type { BlockTree, QuoteItem } from '../tree.ts';
import { quotationName } from './quotation.ts';

/** A quotation of a block that is missing, or of a lesson that is. */
export function missingBlock(item: QuoteItem, found: Missing, span: TextSpan): Diagnostic {
  const { lesson, block = '', to } = item;
  if (lesson !== undefined && found.missing === 'lesson')
    return report('quote-unknown', span, { what: 'lesson', name: lesson, ...meantInstead(found) });
  const name = lesson === undefined ? block : `${lesson}/${block}`;
  if (found.elsewhere !== undefined) {
    const moved = `<${quotationName({ ...item, lesson: found.elsewhere })}>`;
    const facts = { what: 'block', name, nearest: moved, elsewhere: found.elsewhere } as const;
    return report('quote-unknown', span, facts, to ? undefined : certainly(span, moved));
  }
  const near = found.nearest === undefined ? undefined : `<${quotationName({ ...item, block: found.nearest })}>`;
  const instead = found.renamed ? certainly : perhaps;
  const fix = near === undefined || to ? undefined : instead(span, near);
  return report('quote-unknown', span, { what: 'block', name, ...meantInstead(found, near) }, fix);
}

/** Of many phrases so many are listed. */
const MOST_NAMED = 10;

/** A quotation of a phrase that its block has not. */
export function missingPhrase(
  item: { readonly lesson?: string; readonly block?: string; readonly phrase: string },
  { tree, context }: { readonly tree: BlockTree; readonly context: ReadContext },
  span: TextSpan,
): Diagnostic {
  const other = item.block === undefined ? context.otherMeaning(item.phrase) : undefined;
  const near = nearest(item.phrase, tree.phrases.keys());
  const meant = other ?? (near === undefined ? undefined : quotationName({ ...item, phrase: near }));
  const name = quotationName(item);
  const facts = { what: 'phrase', name, nearest: meant && `<${meant}>` } as const;
  if (item.block !== undefined) return report('quote-unknown', span, facts);
  const known = [...tree.phrases.keys()].slice(0, MOST_NAMED).map((one) => `<${one}>`);
  const own =
    known.length > 0
      ? `The phrases of this block are ${known.join(', ')}.`
      : `This block has no phrases: write one above the music, as in phrase ${name}: 4 -4 5`;
  return report('quote-unknown', span, { ...facts, own });
}
