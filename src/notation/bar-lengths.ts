/** Whether the bars of a block are as long as its meter and its pickup ask. */
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import {
  add,
  compare,
  divide,
  equals,
  type Fraction,
  format,
  fraction,
  isWhole,
  multiply,
  subtract,
  toNumber,
} from '../time/fraction.ts';
import { barLength, meterName } from '../time/meter.ts';
import { itemAt, lastOf } from '../values/checked.ts';
import type { DraftBar, DraftSettings } from './bars.ts';
import { plainCharacters } from './characters.ts';
import type { Header } from './header.ts';
import { explainBars, missingLines, spacedCount } from './mistakes/wrong-bars.ts';
import { report } from './problems.ts';
import { checkQuotedLengths, type QuotedBlocks } from './quotation/quoted-lengths.ts';
import { slotName } from './setting-values.ts';

/** Reports each bar that is too short or too long; bars that are all so in the same way are reported once. */
export function checkLengths(
  bars: readonly DraftBar[],
  settings: readonly DraftSettings[],
  { head, badChanges, quoted, text }: LengthContext,
  diagnostics: Diagnostic[],
): void {
  if (['meter', 'slot', 'pickup'].some((key) => head.bad.has(key) || badChanges.has(key))) return;
  const wanted = (index: number): Fraction =>
    index === 0 && head.pickup ? head.pickup : barLength(itemAt(settings, index).meter);
  const isRight = (bar: DraftBar, index: number): boolean => {
    if (equals(bar.length, wanted(index))) return true;
    // The pickup is taken from the last bar, from the bar before each repeat sign and before D.C., but not from itself.
    const last = index > 0 && (index === bars.length - 1 || bar.repeatEnd || bar.jump === 'D.C.');
    return last && head.pickup !== undefined && equals(bar.length, subtract(wanted(index), head.pickup));
  };
  const wrong = [...bars.keys()].filter((index) => {
    const bar = itemAt(bars, index);
    return !bar.unsure && !isRight(bar, index);
  });
  const explained = checkQuotedLengths(bars, wrong, { settings, quoted }, diagnostics);
  const { meter, slot } = head.settings;
  const isChanged = settings.some((own) => own.meter !== meter || own.slot !== slot);
  const other = isChanged || explained.size > 0 ? undefined : otherMeter(bars, barLength(meter));
  if (other) {
    const first = itemAt(bars, 0);
    diagnostics.push(
      report('bars-in-another-meter', first.span, {
        bars: other.bars,
        has: format(divide(other.length, slot)),
        fits: other.meter,
        meter: meterName(meter),
        slot: slotName(slot),
      }),
    );
    return;
  }
  const rest = wrong.filter((index) => !explained.has(index));
  if (rest.length === 0) return;
  const plain = plainCharacters(text);
  const slotOf = (index: number): Fraction => itemAt(settings, index).slot;
  const hasPickup = head.pickup !== undefined;
  const seen = explainBars({ bars, wrong: rest, wanted, slotOf, text: plain, hasPickup }, diagnostics);
  const isPickup = !hasPickup && rest.length === 2 && isPickupWithout(bars, rest, wanted);
  for (const index of rest) {
    if (seen.has(index) || (isPickup && index > 0)) continue;
    const bar = itemAt(bars, index);
    if (bar.repeatsLast) {
      // What is wrong with the bar that is repeated is said there.
      if (isRight(itemAt(bars, index - 1), index - 1))
        diagnostics.push(report('again-unclear', bar.span, { why: 'length' }));
      continue;
    }
    const { meter, slot } = itemAt(settings, index);
    const wants = wanted(index);
    const short = compare(bar.length, wants) < 0;
    const inSlots = (length: Fraction): string => format(divide(length, slot));
    const pickup = short && index === 0 && !head.pickup && bars.length > 1 ? inSlots(bar.length) : undefined;
    const lines = short ? undefined : missingLines(bar, wants, plain);
    const count = short ? spacedCount(bar, wants, slot, plain) : undefined;
    const facts = {
      bar: bar.number,
      has: inSlots(bar.length),
      wants: inSlots(wants),
      meter: meterName(meter),
      slot: slotName(slot),
      ...(pickup?.includes('/') ? {} : { pickup }),
      lines,
      count: count?.meant,
    };
    diagnostics.push(report(short ? 'bar-too-short' : 'bar-too-long', bar.span, facts, lines?.fix ?? count?.fix));
  }
}

/** Whether the first and the last bar are one bar together, as a pickup and the bar that it is taken from. */
function isPickupWithout(
  bars: readonly DraftBar[],
  [first, last]: readonly number[],
  wanted: (index: number) => Fraction,
): boolean {
  if (first !== 0 || last !== bars.length - 1 || itemAt(bars, last).repeatsLast) return false;
  return equals(add(itemAt(bars, first).length, itemAt(bars, last).length), wanted(last));
}

/** What the lengths of bars depend on, beside their meters. */
interface LengthContext {
  readonly head: Header;
  /** The changes of settings that could not be read. */
  readonly badChanges: ReadonlySet<string>;
  readonly quoted: QuotedBlocks;
  /** The text of the block. */
  readonly text: string;
}

/** The length that all bars have but perhaps the first and the last, where it is not that of the meter but of another one. */
function otherMeter(
  bars: readonly DraftBar[],
  full: Fraction,
): { readonly bars: number; readonly length: Fraction; readonly meter: string } | undefined {
  if (bars.length < FEWEST || bars.some(({ unsure }) => unsure)) return undefined;
  const inner = bars.slice(1, -1);
  const { length } = itemAt(inner, 0);
  if (equals(length, full) || inner.some((bar) => !equals(bar.length, length))) return undefined;
  const unit = [4, 8].find((one) => isWhole(multiply(length, fraction(one))));
  const edges = [itemAt(bars, 0), lastOf(bars)];
  // A pickup and what it is taken from are shorter.
  if (unit === undefined || edges.some((bar) => compare(bar.length, length) > 0)) return undefined;
  const count = inner.length + edges.filter((bar) => equals(bar.length, length)).length;
  return { bars: count, length, meter: `${toNumber(multiply(length, fraction(unit)))}/${unit}` };
}

/** Two bars may both be wrong; so many that agree are meant. */
const FEWEST = 4;
