/** Which mutants of a module are tried: those of its code and its data, not of its prose, and of many a sample. */
import { readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';
import { ROOT } from '../measure.ts';
import { seeded } from '../random.ts';

/** A change to the text of one place in a file. */
export interface Mutant {
  readonly fileName: string;
  readonly mutatorName: string;
  readonly replacement: string;
  /** Lines and columns from 0. */
  readonly location: { readonly start: Position; readonly end: Position };
}

interface Position {
  readonly line: number;
  readonly column: number;
}

export interface Choice {
  /** All there are, the left out ones included. */
  readonly total: number;
  /** How many are left out, by the reason. */
  readonly leftOut: ReadonlyMap<string, number>;
  readonly chosen: readonly Mutant[];
  /** What the files contained when the mutants were made. */
  readonly texts: ReadonlyMap<string, string>;
  /** Whether none was passed over for the sample. */
  readonly whole: boolean;
}

const SILENT = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace() {},
  debug() {},
  info() {},
  warn() {},
  error() {},
  fatal() {},
};

export async function choose(
  files: readonly string[],
  { sample, seed }: { sample: number; seed: number },
): Promise<Choice> {
  const texts = new Map(files.map((file) => [file, readFileSync(file, 'utf8')]));
  const { mutants } = await new Instrumenter(SILENT).instrument(
    [...texts].map(([name, content]) => ({ name, content, mutate: true })),
    { plugins: null, excludedMutations: [], ignorers: [] },
  );
  const leftOut = new Map<string, number>();
  const worthwhile = mutants.filter((mutant) => {
    const reason = leftOutBecause(mutant, texts.get(mutant.fileName) ?? '');
    if (reason) leftOut.set(reason, (leftOut.get(reason) ?? 0) + 1);
    return reason === undefined;
  });
  const whole = worthwhile.length <= sample;
  return {
    total: mutants.length,
    leftOut,
    chosen: whole ? worthwhile : seeded(seed).some(worthwhile, sample),
    whole,
    texts,
  };
}

/** The same for a mutant wherever it is met: before the run, in the processes that check it, and in the results. */
export const keyOf = ({ fileName, mutatorName, replacement, location: { start, end } }: Mutant): string =>
  [
    fileName.slice(fileName.lastIndexOf('/src/') + 1),
    `${start.line}:${start.column}-${end.line}:${end.column}`,
    mutatorName,
    replacement,
  ].join(' ');

/** What the text of a mutant's place was. */
export function originalOf({ location: { start, end } }: Mutant, text: string): string {
  const lines = text.split('\n').slice(start.line, end.line + 1);
  lines[lines.length - 1] = lines.at(-1)?.slice(0, end.column) ?? '';
  lines[0] = lines[0]?.slice(start.column) ?? '';
  return lines.join('\n');
}

export const placeOf = ({ fileName, location: { start } }: Mutant): string =>
  `${relative(ROOT, fileName)}:${start.line + 1}:${start.column + 1}`;

/** Catalogues of problems have one test for their words, and a text says the same with other words. */
const CATALOGUES = /\/(?:problems|english\/[^/]+|vocabulary)\.ts$/;
/** Two words side by side, as no name or notation has them. */
const SENTENCE = /\p{L}{2,}[,.:;]? (?:\p{L}|\$\{)/u;
/** What is said to a maintainer when our own code is wrong, and to the author of a file in its reference. */
const SAYS = /(?:\bError\(|\bassert\w*\(|\bpresent\([^\n]*|\bitemAt\([^\n]*|\bvalueAt\([^\n]*|\.describe\()\s*$/;

function leftOutBecause(mutant: Mutant, text: string): string | undefined {
  if (mutant.mutatorName !== 'StringLiteral') return undefined;
  if (CATALOGUES.test(mutant.fileName)) return 'words of a catalogue';
  if (SENTENCE.test(originalOf(mutant, text))) return 'a sentence';
  const { line, column } = mutant.location.start;
  const before = `${text.split('\n')[line - 1] ?? ''}\n${text.split('\n')[line]?.slice(0, column)}`;
  return SAYS.test(before) ? 'words of an error' : undefined;
}
