/** Words in the music that are no slots and stand together: a sentence is one mistake. */
import type { Diagnostic } from '../../diagnostics/diagnostic.ts';
import { nameOfText } from '../characters.ts';
import { report } from '../problems.ts';

/** The codes of single words that are no slots. */
const WORDS = new Set(['not-a-slot', 'other-spelling']);

/** The diagnostics of a block with one problem for words that follow each other on a line, if none of two is known. */
export function withWordsTogether(text: string, diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const together: Diagnostic[] = [];
  let run: Diagnostic[] = [];
  const close = (): void => {
    const [first, last] = [run[0], run.at(-1)];
    const unknown = run.filter(({ code, help }) => code === 'not-a-slot' && help === undefined);
    if (first && last && unknown.length >= FEWEST) {
      const span = { from: first.span.from, to: last.span.to };
      together.push(report('not-a-slot', span, { text: nameOfText(text.slice(span.from, span.to)) }));
    } else together.push(...run);
    run = [];
  };
  for (const diagnostic of diagnostics) {
    const last = run.at(-1);
    const gap =
      last === undefined ? '' : text.slice(last.span.to, Math.min(diagnostic.span.from, last.span.to + MOST_SPACES));
    if (last && (!/^ +$/.test(gap) || last.span.to + gap.length !== diagnostic.span.from)) close();
    if (WORDS.has(diagnostic.code)) run.push(diagnostic);
    else {
      close();
      together.push(diagnostic);
    }
  }
  close();
  return together;
}

/** One unknown word is looked at alone. */
const FEWEST = 2;
/** More is a gap. */
const MOST_SPACES = 80;
