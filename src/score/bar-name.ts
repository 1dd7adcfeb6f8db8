/**
 * Bars by the names they have in an address: the number musicians count them by, 0 for a pickup, and where several endings have a bar
 * of that number, behind a point a time through the repeat in which it is played: `2.1` is bar 2 of the first ending.
 */
import { itemAt } from '../values/checked.ts';

/** What of a bar its name is made from; `Bar` of score.ts and `PlayedBar` of playback.ts have it. */
export interface NamedBar {
  readonly number: number;
  /** The times through its repeat in which it is played: ascending, counted from 1. */
  readonly endings?: readonly number[];
}

/** The name of the bar at an index: `3`, or `2.1` where the number alone would be that of several. */
export function barName(bars: readonly NamedBar[], index: number): string {
  const { number, endings } = itemAt(bars, index);
  const isAlone = bars.filter((bar) => bar.number === number).length === 1;
  return isAlone || !endings ? `${number}` : `${number}.${itemAt(endings, 0)}`;
}

/** The indices of the bars that a name may mean: one, none, or several where it does not say which ending. */
export function barsNamed(bars: readonly NamedBar[], name: string): readonly number[] {
  const [, number, ending] = /^(\d{1,5})(?:\.(\d))?$/.exec(name) ?? [];
  if (number === undefined) return [];
  const numbered = [...bars.keys()].filter((index) => itemAt(bars, index).number === Number(number));
  const endingsOf = (index: number): readonly number[] | undefined => itemAt(bars, index).endings;
  if (ending !== undefined) return numbered.filter((index) => endingsOf(index)?.includes(Number(ending)));
  const plain = numbered.filter((index) => endingsOf(index) === undefined);
  return plain.length > 0 ? plain : numbered;
}

/** All bars in a few words: `1 to 7, 8.1, 8.2, 9 to 12`. */
export function allBarNames(bars: readonly NamedBar[]): string {
  const runs: { readonly from: string; to: string }[] = [];
  for (const index of bars.keys()) {
    const name = barName(bars, index);
    const run = runs.at(-1);
    if (run && `${Number(run.to) + 1}` === name && !run.from.includes('.')) run.to = name;
    else runs.push({ from: name, to: name });
  }
  return runs.map(({ from, to }) => (from === to ? from : `${from} to ${to}`)).join(', ');
}
