/** What must be true of every problem that is reported, whatever was read. */
import { ALL_PROBLEMS } from '../../src/course/catalogue.ts';
import { demand } from './target.ts';

interface Reported {
  readonly code: string;
  readonly message: string;
  readonly help?: string | undefined;
  readonly span: { readonly from: number; readonly to: number };
}

/** Its place is in the text, its code is in the catalogue, and its words are whole. */
export function checkProblems(problems: readonly Reported[], source: string): void {
  for (const { code, message, help = '', span } of problems) {
    demand(Object.hasOwn(ALL_PROBLEMS, code), `the code ${code} is in no catalogue`);
    demand(
      0 <= span.from && span.from <= span.to && span.to <= source.length,
      `${code} is at ${span.from} to ${span.to} of ${source.length} characters`,
    );
    demand(!/undefined|NaN|\[object|\bnull\b/.test(unquoted(message + help)), `${code} says: ${message} ${help}`);
  }
}

/** A message without what it quotes of the text, which may say anything. */
const unquoted = (message: string): string => message.replace(/“[^”]*”/gs, '');
