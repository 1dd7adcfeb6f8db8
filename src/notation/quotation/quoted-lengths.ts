/** Whole blocks that are quoted where their bars do not fit: in another meter, or with a pickup. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import { divide, equals, type Fraction, format } from '../../time/fraction.ts';
import { barLength, type Meter, meterName } from '../../time/meter.ts';
import { itemAt } from '../../values/checked.ts';
import type { DraftBar, DraftSettings } from '../bars.ts';
import { report } from '../problems.ts';

/** A whole block that a quotation brings. */
export interface QuotedBlock {
  /** As it is written between the brackets. */
  readonly name: string;
  readonly span: TextSpan;
  readonly meter: Meter;
  readonly pickup?: Fraction;
}

/** The blocks that are quoted whole, by the place of the quotation. */
export type QuotedBlocks = Map<number, QuotedBlock>;

/**
 * Reports the quotations because of which bars are of a wrong length, each once. Returns the bars that are explained so; `wrong` are all
 * whose length is wrong.
 */
export function checkQuotedLengths(
  bars: readonly DraftBar[],
  wrong: readonly number[],
  { settings, quoted }: { readonly settings: readonly DraftSettings[]; readonly quoted: QuotedBlocks },
  diagnostics: Diagnostic[],
): ReadonlySet<number> {
  const explained = new Set<number>();
  const firstBars = new Map<QuotedBlock, number>();
  if (wrong.length > 0 && quoted.size > 0)
    for (const [index, bar] of bars.entries())
      for (const block of quotedIn(bar, quoted)) if (!firstBars.has(block)) firstBars.set(block, index);
  const reported = new Set<QuotedBlock>();
  for (const index of wrong) {
    const now = itemAt(settings, index);
    const here = barLength(now.meter);
    for (const block of quotedIn(itemAt(bars, index), quoted)) {
      const { name, span, meter, pickup } = block;
      const isOther = !equals(barLength(meter), here);
      if (!isOther && !pickup) continue;
      explained.add(index);
      if (reported.has(block)) continue;
      reported.add(block);
      if (isOther)
        diagnostics.push(report('quoted-meter', span, { name, meter: meterName(meter), here: meterName(now.meter) }));
      else if (pickup) {
        const isStart = firstBars.get(block) === index;
        diagnostics.push(report('quoted-pickup', span, { name, slots: format(divide(pickup, now.slot)), isStart }));
      }
    }
  }
  return explained;
}

function quotedIn(bar: DraftBar, quoted: QuotedBlocks): QuotedBlock[] {
  const found = new Set<QuotedBlock>();
  for (const { source } of bar.events) {
    const block = source.quote && source.quote.phrase === undefined ? quoted.get(source.span.from) : undefined;
    if (block) found.add(block);
  }
  return [...found];
}
