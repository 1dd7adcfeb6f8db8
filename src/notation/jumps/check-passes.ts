/** What is probably not meant where bars are played several times: beats lost, tempos that begin again, verses that nobody sings. */
import { type Diagnostic, hasError, type TextSpan } from '../../diagnostics/diagnostic.ts';
import { isJumpBack } from '../../score/jump.ts';
import { jumpPlaces, playOrder } from '../../score/playing-order.ts';
import { compare, divide, type Fraction, format, subtract } from '../../time/fraction.ts';
import { barLength } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar, DraftSettings } from '../bars.ts';
import { report } from '../problems.ts';

/** Reports it. Nothing is said of a block with errors: how often its bars are played may be an accident. */
export function checkPasses(
  bars: readonly DraftBar[],
  settings: readonly DraftSettings[],
  pickup: Fraction | undefined,
  diagnostics: Diagnostic[],
): void {
  if (hasError(diagnostics)) return;
  const jump = bars.findIndex((bar) => isJumpBack(bar.jump));
  const order = playOrder({ bars, pickup });
  const repeated = jump < 0 ? order : order.slice(0, -jumpPlaces({ bars, pickup }, jump).afterJump.length || undefined);
  const passes = new Map<number, number>();
  for (const index of repeated) passes.set(index, (passes.get(index) ?? 0) + 1);
  if (pickup) checkShortRepeats(bars, settings, repeated, diagnostics);
  checkTempos(bars, passes, diagnostics);
  checkSung(bars, passes, diagnostics);
}

/** A bar that is shorter for the pickup, and does not go back to it. */
function checkShortRepeats(
  bars: readonly DraftBar[],
  settings: readonly DraftSettings[],
  order: readonly number[],
  diagnostics: Diagnostic[],
): void {
  const reported = new Set<number>();
  for (const [at, index] of order.entries()) {
    const next = order[at + 1];
    const { length, span, number } = itemAt(bars, index);
    const { meter, slot } = itemAt(settings, index);
    const isShort = index > 0 && compare(length, barLength(meter)) < 0;
    if (!isShort || next === undefined || next === 0 || next > index || reported.has(index)) continue;
    reported.add(index);
    const slots = format(divide(subtract(barLength(meter), length), slot));
    diagnostics.push(report('repeat-loses-pickup', span, { bar: number, slots, isFirst: next === 1 }));
  }
}

/** A gradual tempo without a tempo of its own to begin with, in a repeat without one either. */
function checkTempos(bars: readonly DraftBar[], passes: ReadonlyMap<number, number>, diagnostics: Diagnostic[]): void {
  bars.forEach(({ change, tempoSpan }, index) => {
    if (!tempoSpan || change?.tempo?.to === undefined || change.tempo.from !== undefined) return;
    let end = index + 1;
    while (end < bars.length && !bars[end]?.change?.tempo && isOnward(bars, end)) end++;
    const again = bars.findIndex((_, bar) => bar >= index && bar < end && (passes.get(bar) ?? 0) > 1);
    if (again < 0) return;
    let start = again;
    while (start > 0 && !bars[start]?.repeatStart && (passes.get(start - 1) ?? 0) > 1) start--;
    const isSet = bars.slice(start, index + 1).some((bar) => bar.change?.tempo?.from !== undefined);
    if (!isSet) diagnostics.push(report('tempo-again', tempoSpan, {}));
  });
}

/** Whether the tempo of the bar before leads on into this one: later endings continue from before the first. */
const isOnward = (bars: readonly DraftBar[], index: number): boolean => {
  const { opens } = itemAt(bars, index);
  return opens === undefined || opens.includes(1);
};

/** Verses for more times than a repeat is played, where the block says how often that is. */
function checkSung(bars: readonly DraftBar[], passes: ReadonlyMap<number, number>, diagnostics: Diagnostic[]): void {
  const lines = new Map<
    number,
    { readonly span: TextSpan; readonly verse: number; readonly times: number; readonly byEndings: boolean }
  >();
  const sung = new Set<number>();
  // The bar with the next sign at which a repeat ends.
  let end: DraftBar | undefined;
  for (const [index, bar] of [...bars.entries()].reverse()) {
    if (bar.repeatEnd) end = bar;
    const times = passes.get(index) ?? 1;
    const byEndings = end?.endings !== undefined;
    const isSaid = times > 1 && bar.endings === undefined && (end?.times !== undefined || byEndings);
    for (const event of bar.events)
      for (const { verse, line } of (event.kind === 'sound' && event.words) || [])
        if (isSaid && verse > times) lines.set(line.from, { span: line, verse, times, byEndings });
        else sung.add(line.from);
  }
  for (const [from, { span, ...facts }] of lines)
    if (!sung.has(from)) diagnostics.push(report('verse-unsung', span, facts));
}
