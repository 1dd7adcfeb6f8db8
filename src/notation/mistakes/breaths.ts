/** Holes in parentheses that have signs of their own. */
import type { Fix, TextSpan } from '../../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../../diagnostics/edit.ts';
import type { TreeNote } from '../tree.ts';
import type { BreathFacts } from './breath-words.ts';

/** The sign of a breath, if there is one. */
export type Sign = '-' | '+' | undefined;

/** Holes on one breath, and its sign. */
export interface Holes {
  readonly notes: readonly TreeNote[];
  readonly breath: Sign;
}

const isDraw = (sign: Sign): boolean => sign === '-';

/** What is meant by signs within parentheses. `outer` is the sign before them, and `span` is all of it. */
export function breathsOf(
  outer: Sign,
  signs: readonly Sign[],
  holes: readonly string[],
  span: TextSpan,
): { readonly facts: BreathFacts; readonly breath: Sign; readonly fix?: Fix } {
  const breaths = signs.map((sign) => isDraw(sign ?? outer));
  const isMixed = breaths.some((one) => one !== breaths[0]) || (outer !== undefined && breaths[0] !== isDraw(outer));
  const breath: Sign = breaths.includes(true) ? '-' : '+';
  const twice = isMixed ? holes.find((hole, index) => holes.indexOf(hole) !== index) : undefined;
  const isOpposed = outer !== undefined && signs.some((sign) => sign !== undefined && isDraw(sign) !== isDraw(outer));
  const nearest =
    twice !== undefined || isOpposed || (signs.includes('+') && isMixed)
      ? undefined
      : `${breath === '-' ? '-' : ''}(${holes.join(' ')})`;
  const inTurn = holes.map((hole, index) => `${breaths[index] ? '-' : ''}${hole}`).join(' ');
  const facts = { nearest, inTurn, isMixed, twice };
  if (nearest === undefined) return { facts, breath };
  return { facts, breath, fix: (isMixed ? perhaps : certainly)(span, nearest) };
}
