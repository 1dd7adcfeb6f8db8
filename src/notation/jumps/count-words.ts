/** Counts of bars that rest, and of times that a repeat is played, in other signs than those that are read. */

/** A count in other signs: `x4`, `.x 4`, `4x`. */
export interface CountWords {
  /** Where it ends. */
  readonly to: number;
  readonly count: number | undefined;
  /** Whether it may be a rest of so many bars, and whether a repeat that is played so often. */
  readonly rest: boolean;
  readonly times: boolean;
}

const COUNT = /(\.?)(?:[x×](?: ?(\d{1,3}))?|(\d{1,3})[x×])(?![^\s|:"])/iy;

/** The count that is meant by the signs at an offset of a text; undefined where other things are in its bar. */
export function countWords(text: string, from: number): CountWords | undefined {
  let line = from - 1;
  while (text[line] === ' ') line--;
  if (line >= 0 && !/[|\]:]/.test(text.charAt(line))) return undefined;
  COUNT.lastIndex = from;
  const found = COUNT.exec(text);
  if (!found) return undefined;
  const [all, dot, behind, before] = found;
  const digits = behind ?? before;
  if (dot === '' && digits === undefined) return undefined;
  const to = from + all.length;
  const isAlone = /^ *(?:$|[|:])/.test(text.slice(to, to + 80));
  const repeats = /:\|[|\]:]?$/.test(text.slice(Math.max(0, line - 2), line + 1));
  const rest = isAlone && !(repeats && line === from - 1);
  const times = repeats && dot === '';
  if (!rest && !times) return undefined;
  return { to, count: digits === undefined ? undefined : Number(digits), rest, times };
}
