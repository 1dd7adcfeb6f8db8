/** Bar lines with their repeats, the times these are played, and the endings that open behind them. */
import type { BarLine } from './tree.ts';

const LINE = /:\|\|?:|:\|\]|:\|\||:\||\|\|:|\|:|\|\]|\|\||\|/y;
const TIMES = /x[2-9](?![^\s|"{<@])/y;
/** Numbers of an ending are alone behind their line: |1' is a bar line and a bent hole 1. */
const ENDINGS = /[1-9](?:,[1-9])*(?![^\s"{<@])/y;

/** Reads the bar line at an offset of a text, and where it ends; undefined where there is none. */
export function readBarLine(
  text: string,
  from: number,
): { readonly line: Omit<BarLine, 'kind' | 'span'>; readonly to: number } | undefined {
  let to = from;
  const next = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = to;
    const found = pattern.exec(text)?.[0];
    to += found?.length ?? 0;
    return found;
  };
  const sign = next(LINE);
  if (sign === undefined) return undefined;
  const times = sign.startsWith(':') ? next(TIMES) : undefined;
  const numbers = sign.endsWith('|') && sign !== '||' ? next(ENDINGS) : undefined;
  const close = sign.endsWith(']') ? 'final' : sign.includes('||') && sign !== ':||:' ? 'double' : undefined;
  const line = {
    repeatEnd: sign.startsWith(':'),
    repeatStart: sign.endsWith(':'),
    ...(times === undefined ? {} : { times: Number(times.slice(1)) }),
    ...(numbers === undefined ? {} : { endings: [...new Set(numbers.split(',').map(Number))].sort() }),
    ...(close === undefined ? {} : ({ close } as const)),
  };
  return { line, to };
}
