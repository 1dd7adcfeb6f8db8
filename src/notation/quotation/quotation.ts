/** What is between the angle brackets of a quotation. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import type { QuoteRef } from '../../score/score.ts';

/** A quotation taken apart. */
export interface QuotationText extends QuoteRef {
  readonly to?: QuotationTarget;
}

/** The chord that a quotation is moved to, and the place of it with its quotation marks. */
export interface QuotationTarget {
  readonly chord: string;
  readonly span: TextSpan;
}

const NAME = /^(?:([\w-]+)|(?:([\w./-]+)\/)?([\w-]+)\s*:\s*([\w-]+)|([\w./-]+)\/([\w-]+)|:\s*([\w-]+))$/;

/**
 * Reads `answer`, `block:answer`, `:block`, `lesson/block:answer`, `lesson/block`, each perhaps with ` to "IV7"` behind it; undefined for
 * anything else. `at` is the offset of the text.
 */
export function readQuotation(text: string, at: number): QuotationText | undefined {
  const { named, to } = targetOf(text.trimEnd(), at);
  const [found, ownPhrase, lesson, block, phrase, otherLesson, whole, ownBlock] = NAME.exec(named.trim()) ?? [];
  if (found === undefined) return undefined;
  const moved = to ? { to } : {};
  if (ownPhrase !== undefined) return { phrase: ownPhrase, ...moved };
  if (ownBlock !== undefined) return { block: ownBlock, ...moved };
  if (otherLesson !== undefined && whole !== undefined) return { lesson: otherLesson, block: whole, ...moved };
  if (block === undefined || phrase === undefined) return undefined;
  return { ...(lesson === undefined ? {} : { lesson }), block, phrase, ...moved };
}

/** Where the names of a quotation are. */
export interface QuotationSpans {
  readonly lesson?: TextSpan;
  readonly block?: TextSpan;
  readonly phrase?: TextSpan;
}

/** The place of each name in a text that {@link readQuotation} reads; `at` is the offset of the text. */
export function quotationSpans(text: string, at: number): QuotationSpans {
  const { named } = targetOf(text.trimEnd(), at);
  const start = named.length - named.trimStart().length;
  const groups = new RegExp(NAME, 'd').exec(named.trim())?.indices ?? [];
  const spanOf = (...numbers: readonly number[]): TextSpan | undefined => {
    const found = numbers.flatMap((number) => (groups[number] ? [groups[number]] : []))[0];
    return found && { from: at + start + found[0], to: at + start + found[1] };
  };
  const [lesson, block, phrase] = [spanOf(2, 5), spanOf(3, 6, 7), spanOf(1, 4)];
  return { ...(lesson ? { lesson } : {}), ...(block ? { block } : {}), ...(phrase ? { phrase } : {}) };
}

function targetOf(text: string, at: number): { readonly named: string; readonly to?: QuotationTarget } {
  const from = text.endsWith('"') ? text.lastIndexOf('"', text.length - 2) : -1;
  const before = text.slice(0, Math.max(0, from)).trimEnd();
  if (!/\sto$/.test(before.slice(-3))) return { named: text };
  const span = { from: at + from, to: at + text.length };
  return { named: before.slice(0, -3), to: { chord: text.slice(from + 1, -1).trim(), span } };
}

/** A quotation as it is written between the brackets: `lesson/block:phrase`, `:block`. */
export function quotationName({ lesson, block, phrase }: QuoteRef): string {
  if (block === undefined) return phrase ?? '';
  const whole = lesson === undefined ? block : `${lesson}/${block}`;
  if (phrase !== undefined) return `${whole}:${phrase}`;
  return lesson === undefined ? `:${block}` : whole;
}
