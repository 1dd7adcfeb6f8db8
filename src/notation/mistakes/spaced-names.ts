/** Names of phrases with spaces in them: the phrase and its quotations are one mistake. */
import type { Diagnostic, TextEdit, TextSpan } from '../../diagnostics/diagnostic.ts';
import { report } from '../problems.ts';

/** Phrases whose names have spaces, by these names: where they are written, and the name without. */
export type SpacedPhrases = Map<string, { readonly keySpan: TextSpan; readonly name: string }>;

/** The diagnostics of a block with one problem for each name that has spaces, and a fix for all its places. */
export function withSpacedNames(
  text: string,
  phrases: SpacedPhrases,
  diagnostics: readonly Diagnostic[],
): Diagnostic[] {
  const edits = new Map<string, TextEdit[]>([...phrases.keys()].map((written) => [written, []]));
  const others = diagnostics.filter(({ code, span }) => {
    const written = text.slice(span.from + 1, span.to - 1).trim();
    const found = code === 'quote-unreadable' ? phrases.get(written) : undefined;
    if (found) edits.get(written)?.push({ span, text: `<${found.name}>` });
    return !found;
  });
  const spaced = [...phrases].map(([written, { keySpan, name }]) => {
    const span = { from: keySpan.to - written.length, to: keySpan.to };
    const fix = { edits: [{ span, text: name }, ...(edits.get(written) ?? [])], certain: true };
    return report('phrase-without-name', keySpan, { meant: name }, fix);
  });
  return [...others, ...spaced];
}
