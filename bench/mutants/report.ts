/** What a run of mutants found, as lines a person reads. */
import { relative } from 'node:path';
import type { MutantResult } from '@stryker-mutator/api/core';
import { valueAt } from '../../src/values/checked.ts';
import { ROOT } from '../measure.ts';
import { ACCEPTED, type Accepted } from './accepted.ts';
import { type Choice, originalOf, placeOf } from './choose.ts';
import { KEPT } from './kept-thread.ts';

export interface Run {
  readonly module: string;
  readonly choice: Choice;
  readonly results: readonly MutantResult[];
  readonly again: string;
  readonly minutes: number;
  readonly workers: number;
}

/** Whether the thread of its tests ended by itself, as one does that runs out of memory. */
const isLost = ({ status, statusReason }: MutantResult): boolean =>
  status === 'RuntimeError' && (statusReason?.includes(`Worker ${KEPT} emitted error`) ?? false);

/** Whether no test has noticed it so far. */
export const isLiving = (result: MutantResult | undefined): boolean =>
  result === undefined || result.status === 'Survived' || result.status === 'NoCoverage';

export function report({ module, choice, results, again, minutes, workers }: Run): void {
  const counted = Map.groupBy(results, ({ status }) => status);
  const many = (status: MutantResult['status']): number => counted.get(status)?.length ?? 0;
  // A thread that ended, and not because it was stopped, says nothing about its mutant.
  const lost = results.filter(isLost).length;
  const unloaded = many('RuntimeError') - lost;
  const killed = many('Killed') + unloaded;
  const timeout = many('Timeout');
  const [survived, uncovered] = [many('Survived'), many('NoCoverage')];
  const living = results
    .filter(isLiving)
    .map((result) => shown(result, choice.texts))
    .sort((a, b) => a.place.localeCompare(b.place, 'en', { numeric: true }));
  const accepted = living.map((one) => ({ ...one, entry: ACCEPTED.find((entry) => fits(entry, one)) }));
  const tested = killed + timeout + survived + uncovered;
  const known = accepted.filter(({ entry }) => entry).length;

  console.log(`\nsrc/${module}: ${choice.total} mutants, ${tested} tried`);
  const left = [...choice.leftOut].map(([reason, count]) => `${count} ${reason}`);
  if (left.length > 0) console.log(`  left out      ${left.join(', ')}`);
  console.log(`  killed        ${killed}, of them ${unloaded} because a test file does not load`);
  console.log(`  timeout       ${timeout}`);
  console.log(`  survived      ${survived}`);
  console.log(`  no coverage   ${uncovered}`);
  if (lost > 0) console.log(`  not tried     ${lost}, whose thread ended by itself`);
  console.log(`  accepted      ${known}, in bench/mutants/accepted.ts`);
  console.log(
    `  score         ${percent(killed + timeout, tested)}, without the accepted ones ${percent(killed + timeout, tested - known)}`,
  );
  console.log(
    `  time          ${minutes.toFixed(1)} min, ${(tested / minutes / 60).toFixed(1)} mutants/s, ${workers} workers`,
  );
  console.log(`  again         ${again}`);

  const unknown = accepted.filter(({ entry }) => !entry);
  if (unknown.length > 0) console.log('\nNo test noticed:\n');
  for (const { place, mutant, original } of unknown) print(place, mutant, original);
  if (known > 0) console.log('\nAccepted:\n');
  for (const { place, mutant, original, entry } of accepted) {
    if (!entry) continue;
    print(place, mutant, original);
    console.log(`    ${entry.why}`);
  }
  const stale = staleIn(module, choice, results);
  if (stale.length > 0)
    console.log('\nNo longer needed in bench/mutants/accepted.ts, a test notices it or the code has changed:\n');
  for (const { file, original, replacement } of stale) console.log(`  ${file}  ${original} → ${replacement}`);
}

interface Shown {
  readonly mutant: MutantResult;
  readonly place: string;
  readonly original: string;
  /** The whole line of the place. */
  readonly line: string;
}

function shown(mutant: MutantResult, texts: Choice['texts']): Shown {
  const text = valueAt(texts, mutant.fileName);
  return {
    mutant,
    place: placeOf(mutant),
    original: originalOf(mutant, text),
    line: text.split('\n')[mutant.location.start.line] ?? '',
  };
}

const fits = (entry: Accepted, { mutant, original, line }: Shown): boolean =>
  `src/${entry.file}` === relative(ROOT, mutant.fileName) &&
  flat(entry.original) === flat(original) &&
  flat(entry.replacement) === flat(mutant.replacement) &&
  line.includes(entry.line ?? '');

/** Entries of this module that fit nothing that lived, except in a sample that has no mutant of theirs. */
function staleIn(module: string, choice: Choice, results: readonly MutantResult[]): readonly Accepted[] {
  const all = results.map((result) => shown(result, choice.texts));
  return ACCEPTED.filter(({ file }) => file === module || file.startsWith(`${module}/`)).filter((entry) => {
    const met = all.filter((one) => fits(entry, one));
    if (met.length === 0) return choice.whole;
    return !met.some(({ mutant }) => isLiving(mutant));
  });
}

const percent = (part: number, whole: number): string => (whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`);

function print(place: string, { replacement, status, static: atLoad }: MutantResult, original: string): void {
  const notes = [status === 'NoCoverage' ? 'no coverage' : '', atLoad ? 'static' : ''].filter(Boolean).join(', ');
  console.log(`  ${place}  ${flat(original)} → ${flat(replacement)}${notes ? `   (${notes})` : ''}`);
}

const flat = (text: string): string => text.replace(/\s+/g, ' ');
