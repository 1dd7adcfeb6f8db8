/** Mistakes in a value of YAML that stands in its line without quotation marks. */
import type { TextEdit, TextSpan } from '../diagnostics/diagnostic.ts';
import { ALL_KEYS } from './file-keys.ts';
import { asQuoted } from './yaml-value.ts';

/** A mistake in the writing of YAML. Spans count from the start of the text. */
export interface YamlMistake {
  readonly span: TextSpan;
  readonly what: string;
  readonly fix: string;
  /** What removes it, if there is only one way. */
  readonly edits?: readonly TextEdit[];
  /** Tried where these leave a mistake in the same line. */
  readonly orElse?: readonly TextEdit[];
  /** A reader of YAML finds nothing wrong with it, and reads something else than is meant. */
  readonly silent?: true;
}

export const edit = (from: number, to: number, text: string): TextEdit => ({ span: { from, to }, text });

/** What is wrong with a value that is not in quotation marks or brackets. */
export function plainMistake(
  rest: string,
  from: number,
  shown: (text: string) => string,
  key: string | undefined,
): YamlMistake | undefined {
  const value = rest.replace(/[ \t]#.*$/, '').trimEnd();
  const span = { from, to: from + value.length };
  const said = asQuoted(value);
  const quote = { fix: `Quote the value: ${shown(said)}`, edits: [edit(span.from, span.to, said)] };
  if (/^[@`%]/.test(value))
    return { span: { from, to: from + 1 }, what: 'A value may not start with this character.', ...quote };
  if (/^[|>][ \t]/.test(value)) {
    const at = from + (/^[|>][ \t]*/.exec(value)?.[0].length ?? 0);
    const what = 'A value that begins with | or > is read as a text of several lines.';
    const inner = value.slice(1).trim();
    const bare = inner.endsWith('|') ? inner.slice(0, -1).trimEnd() : inner;
    return {
      span: { from: at, to: span.to },
      what,
      fix: `Leave the first bar line out: ${shown(bare)}`,
      ...(value.startsWith('|') ? { edits: [edit(span.from, span.to, bare)] } : {}),
    };
  }
  if (/^\*[^\s*]+\*|^\*\*/.test(value)) {
    return {
      span,
      what: 'A value that starts with * refers to another place of the file, which course files do not use.',
      ...quote,
      silent: true,
    };
  }
  if (key === undefined) return undefined;
  if (/^-[ \t]/.test(value))
    return {
      span: { from, to: from + 1 },
      what: 'A list with hyphens begins in the line below its key.',
      fix: `A single value needs no hyphen: ${shown(value.replace(/^-[ \t]+/, ''))}`,
    };
  const second = /^(.*?):(?=[ \t]|$)/.exec(value);
  if (!second) return undefined;
  // A key that follows in the same line may be meant as one.
  const word = /(?:^|[ \t])([\w-]+)$/.exec(second[1] ?? '')?.[1] ?? '';
  const isKey = ALL_KEYS.has(word) && word !== second[1];
  return {
    span,
    what: 'A second colon in this line makes YAML see a key inside a value.',
    fix: quote.fix,
    ...(isKey ? {} : { edits: quote.edits }),
  };
}
