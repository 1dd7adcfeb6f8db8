/** Where a text is in a file: offsets turned into lines and columns, and a problem shown with its line and a caret. */
import type { Diagnostic, Severity, TextEdit, TextSpan } from './diagnostic.ts';

/** Line and column are 1-based; columns count UTF-16 units, as editors do. */
export interface SourcePoint {
  readonly line: number;
  readonly column: number;
}

/** From `start` up to, but not including, `end`. */
export interface SourceRange {
  readonly start: SourcePoint;
  readonly end: SourcePoint;
}

/** Where problems without a place of their own are reported. */
export const TOP: SourceRange = { start: { line: 1, column: 1 }, end: { line: 1, column: 1 } };

/** An edit of a file, by lines and columns. */
export interface PlacedEdit {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  /** What is written in place of what is there. */
  readonly text: string;
}

/** The fix of a problem in its file. */
export interface PlacedFix {
  /** Whether it may be applied unseen, as `check --fix` does. */
  readonly certain: boolean;
  readonly edits: readonly PlacedEdit[];
}

/** A diagnostic in its file: what `check --json` prints. */
export interface Problem {
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly help?: string;
  readonly fix?: PlacedFix;
}

/**
 * A text that is in a file, perhaps indented there line by line (a block in a list or a quotation).
 * `lines[n]` is where line n of the text (from 0, with its offset) begins in the file.
 */
export interface Placed {
  readonly lines: readonly { readonly offset: number; readonly at: SourcePoint }[];
}

/** A text that is the whole file, or begins at `start` and keeps its lines whole from there. */
export function placeOf(text: string, start: SourcePoint = { line: 1, column: 1 }): Placed {
  const lines = [{ offset: 0, at: start }];
  for (let at = 0; at < text.length; at++) {
    const character = text.charCodeAt(at);
    if (character === RETURN && text.charCodeAt(at + 1) === LINE_FEED) at++;
    else if (character !== LINE_FEED && character !== RETURN) continue;
    lines.push({ offset: at + 1, at: { line: start.line + lines.length, column: 1 } });
  }
  return { lines };
}

const LINE_FEED = 10;
const RETURN = 13;

/** The point of an offset. Offsets past the end are on the last line. */
export function pointAt(placed: Placed, offset: number): SourcePoint {
  let low = 0;
  let high = placed.lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((placed.lines[middle]?.offset ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  const line = placed.lines[low];
  if (!line) return { line: 1, column: 1 };
  return { line: line.at.line, column: line.at.column + offset - line.offset };
}

/** A diagnostic of a text that is in a file. */
export function locate(diagnostic: Diagnostic, file: string, placed: Placed): Problem {
  const { fix, ...rest } = diagnostic;
  const problem = problemAt(rest, file, rangeAt(placed, diagnostic.span));
  if (!fix) return problem;
  const edits = fix.edits.map(({ span, text }): PlacedEdit => ({ ...flat(rangeAt(placed, span)), text }));
  return { ...problem, fix: { certain: fix.certain, edits } };
}

const rangeAt = (placed: Placed, { from, to }: TextSpan): SourceRange => ({
  start: pointAt(placed, from),
  end: pointAt(placed, Math.max(from, to)),
});

const flat = ({ start, end }: SourceRange) => ({
  line: start.line,
  column: start.column,
  endLine: end.line,
  endColumn: end.column,
});

/** The edits of a fix as edits of the text of its file, which has to be the one that was read. */
export function editsOf({ edits }: PlacedFix, text: string, { lines }: Placed = placeOf(text)): TextEdit[] {
  const offset = (line: number, column: number): number => (lines[line - 1]?.offset ?? text.length) + column - 1;
  return edits.map(({ line, column, endLine, endColumn, text: written }) => ({
    span: { from: offset(line, column), to: offset(endLine, endColumn) },
    text: written,
  }));
}

/** A diagnostic whose place in its file is known already. Its fix, if it has one, writes something else in that place. */
export function problemAt(
  { severity, code, message, help, fix }: Omit<Diagnostic, 'span'>,
  file: string,
  range: SourceRange,
): Problem {
  return {
    file,
    ...flat(range),
    severity,
    code,
    message,
    ...(help === undefined ? {} : { help }),
    ...(fix ? { fix: { certain: fix.certain, edits: fix.edits.map(({ text }) => ({ ...flat(range), text })) } } : {}),
  };
}

/**
 * A problem as a person reads it: place and code, the line with a caret under what is meant, the sentence, the fix.
 * `source` is the file's text, or its lines (for many problems of one file), or undefined where it could not be read.
 */
export function showProblem(problem: Problem, source: string | readonly string[] | undefined): string {
  const { file, line, column, endLine, endColumn, severity, code, message, help } = problem;
  const head = `${file}:${line}:${column}  ${severity === 'error' ? '' : `${severity} `}${code}`;
  const text = (typeof source === 'string' ? linesOf(source) : source)?.[line - 1];
  const frame = text === undefined ? [] : frameOf(text, line, column, endLine === line ? endColumn : text.length + 1);
  const body = [message, ...(help ? [help] : [])].map((sentence) => `  ${sentence}`);
  return [head, ...frame, ...body].join('\n');
}

/** The lines of a text, whatever ends them. */
export const linesOf = (source: string): readonly string[] => source.split(/\r\n|\r|\n/);

/** How much of a long line is shown on either side of what is meant, in characters. */
const REACH = 60;
/** How much is shown of what is meant, from its start. */
const LONGEST = 120;

function frameOf(text: string, line: number, column: number, endColumn: number): string[] {
  const margin = `${line}`.padStart(5);
  const from = Math.max(0, column - 1 - REACH);
  const last = Math.min(Math.max(endColumn - 1, column), column - 1 + LONGEST);
  const to = Math.min(text.length, last + (last < endColumn - 1 ? 0 : REACH));
  // Tabs and control characters would push the caret off what it points at.
  const printable = text.slice(from, to).replace(/\p{Cc}/gu, ' ');
  const cut = `${from > 0 ? '…' : ''}${printable}${to < text.length ? '…' : ''}`;
  const indent = ' '.repeat(column - 1 - from + (from > 0 ? 1 : 0));
  const carets = '^'.repeat(Math.max(1, Math.min(endColumn - column, last - column + 1)));
  return [`${margin} | ${cut}`, `${' '.repeat(margin.length)} | ${indent}${carets}`];
}
