/** Bars as they are spoken of, by the numbers musicians count them by: 0 is the pickup. */

/** `the pickup`, `bar 5`. */
export const barInWords = (number: number): string => (number === 0 ? 'the pickup' : `bar ${number}`);

/** `bar 5`, `bar 2, first ending`: a bar among all of its block. */
export const barAmongAll = ({ number, ending }: { readonly number: number; readonly ending?: string }): string =>
  barInWords(number) + (ending ? `, ${ending}` : '');

/** The number of a bar by its index among those that are played. What still sounds may be of a bar that its author has removed. */
export const barNumber = (bars: readonly { readonly number: number }[], index: number): number =>
  bars[index]?.number ?? index + 1;

/** Bars from one index to another, by their numbers, as {@link barsInWords} has them. */
export const rangeInWords = (
  bars: readonly { readonly number: number }[],
  { first, last }: { readonly first: number; readonly last: number },
): string => barsInWords(barNumber(bars, first), barNumber(bars, last));

/** `bar 5`, `bars 5 to 8`, `the pickup and bars 1 to 4`: from one bar to another that is not before it. */
export function barsInWords(first: number, last: number): string {
  if (first === last) return barInWords(first);
  const from = Math.max(first, 1);
  const counted = from === last ? barInWords(last) : `bars ${from} to ${last}`;
  return first === 0 ? `the pickup and ${counted}` : counted;
}
