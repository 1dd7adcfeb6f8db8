/** What holds for every problem that is reported, whatever the text. */
import type { Catalogue } from '../../src/diagnostics/catalogue.ts';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.ts';
import { locate, type Problem, placeOf, showProblem } from '../../src/diagnostics/place.ts';
import { must } from './target.ts';

const BAD_VALUE = /undefined|NaN|\[object|Infinity|function|=>/;

/** A message says something: no value that the program itself did not have. What the author wrote may be repeated. */
export function checkWords({ code, message, help }: Pick<Problem, 'code' | 'message' | 'help'>, text: string): void {
  const bad = BAD_VALUE.exec(`${message} ${help ?? ''}`)?.[0];
  must(
    bad === undefined || text.includes(bad),
    'a message has no mistake of the program in it',
    () => `${code}: ${message} ${help}`,
  );
  must(message.trim().length > 3, 'a problem has a message', () => code);
}

/** The code is in the catalogue, and the severity is the one it has there. */
export function checkCode({ code, severity }: Pick<Problem, 'code' | 'severity'>, catalogue: Catalogue): void {
  must(Object.hasOwn(catalogue, code), 'the code of a problem is in a catalogue', () => code);
  must(
    catalogue[code]?.severity === severity,
    'a problem is as severe as its catalogue says',
    () => `${code}: ${severity}`,
  );
}

/** Of thousands of problems of one text the first and the last have their lines counted, which takes a walk through the text. */
const MOST = 50;

/** Every diagnostic of a text: its code, its words, its span in the text, and the line and column made of it. */
export function checkDiagnostics(text: string, diagnostics: readonly Diagnostic[], catalogue: Catalogue): void {
  const placed = placeOf(text);
  const lines = text.split(/\r\n|\r|\n/);
  const end = diagnostics.length - MOST;
  for (const [index, diagnostic] of diagnostics.entries()) {
    const { span, code } = diagnostic;
    const shown = (): string => `${code} ${span.from}–${span.to} of ${text.length}`;
    checkCode(diagnostic, catalogue);
    checkWords(diagnostic, text);
    must(Number.isInteger(span.from) && Number.isInteger(span.to), 'a span is of whole numbers', shown);
    must(span.from >= 0 && span.from <= span.to, 'a span begins in the text and before its end', shown);
    must(span.to <= text.length, 'a span ends in the text', shown);
    if (index >= MOST && index < end) continue;
    const problem = locate(diagnostic, 'block', placed);
    must(offsetOf(text, problem.line, problem.column) === span.from, 'line and column are those of the offset', () => [
      shown(),
      problem,
    ]);
    must(offsetOf(text, problem.endLine, problem.endColumn) === span.to, 'the end is where its offset is', () => [
      shown(),
      problem,
    ]);
    checkFrame(problem, lines);
  }
}

/** The offset of a line and a column, worked out by stepping through the text. */
function offsetOf(text: string, line: number, column: number): number {
  let at = 0;
  for (let number = 1; number < line; number++) {
    while (at < text.length && text[at] !== '\n' && text[at] !== '\r') at++;
    at += text[at] === '\r' && text[at + 1] === '\n' ? 2 : 1;
  }
  return at + column - 1;
}

/** The problem as it is printed has the line it is about, and a caret under it. */
export function checkFrame(problem: Problem, lines: readonly string[]): void {
  const shown = showProblem(problem, lines).split('\n');
  must(
    shown.some((line) => /^ +\| *\^+$/.test(line)),
    'a printed problem has a caret',
    () => shown.join('\n'),
  );
}
