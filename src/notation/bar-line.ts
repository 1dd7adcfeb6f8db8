/** Bar lines with their repeats, the times these are played, the endings that open behind them, and the signs of jumps. */
import type { Diagnostic, Fix, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly } from '../diagnostics/edit.ts';
import { type Known, nearest } from '../diagnostics/nearest.ts';
import { JUMP_SIGNS, type JumpSign } from '../score/jump.ts';
import { nameOfText } from './characters.ts';
import { MOST_REST_BARS } from './jumps/again-problems.ts';
import { type CountWords, countWords } from './jumps/count-words.ts';
import { jumpWords } from './jumps/jump-words.ts';
import { report } from './problems.ts';
import type { BarLine, WrittenSign } from './tree.ts';

const LINE = /:\|\|?:|:\|\]|:\|\||:\||\|\|:|\|:|\|\]|\|\||\|/y;
const TIMES = /x[2-9](?![^\s|"{<@])/y;
/** Numbers of an ending are alone behind their line: |1' is a bar line and a bent hole 1. */
const ENDINGS = /[1-9](?:,[1-9])*(?![^\s"{<@])/y;
const LIST = /[A-Za-z1-9][A-Za-z0-9.,-]*(?![^\s|"{<@])/y;
const IN_LIST = /^(?:[1-9]|x[2-9]|[A-Za-z][A-Za-z.-]*)$/;

/** Whether words are the list of a bar line. Times or numbers alone are none, and a letter with a digit is a mistake of another kind. */
const isList = (words: readonly string[]): boolean =>
  words.every((word) => IN_LIST.test(word)) && words.some((word) => /^[A-Za-z](?!\d)/.test(word));

/** A bar line as read. */
export interface ReadBarLine {
  readonly line: Omit<BarLine, 'kind' | 'span'>;
  /** Where it ends. */
  readonly to: number;
  /** Words behind it that have no meaning there. */
  readonly unknown: readonly TextSpan[];
}

/** Reads the bar line at an offset of a text; undefined where there is none. */
export function readBarLine(text: string, from: number): ReadBarLine | undefined {
  let to = from;
  const next = (pattern: RegExp, isMeant = (_: string) => true): string | undefined => {
    pattern.lastIndex = to;
    const found = pattern.exec(text)?.[0];
    if (found === undefined || !isMeant(found)) return undefined;
    to += found.length;
    return found;
  };
  const sign = next(LINE);
  if (sign === undefined) return undefined;
  const repeatEnd = sign.startsWith(':');
  const listFrom = to;
  const count = countWords(text, to);
  // `:|x 3` is one mistake, and `|x 3` is not the word x.
  const list = count ? undefined : next(LIST, (words) => isList(words.split(',')));
  const times = repeatEnd && list === undefined ? next(TIMES) : undefined;
  const numbers = list === undefined && sign.endsWith('|') && sign !== '||' ? next(ENDINGS) : undefined;
  const close = sign.endsWith(']') ? 'final' : sign.includes('||') && sign !== ':||:' ? 'double' : undefined;
  const words = readList(list ?? [times, numbers].filter(Boolean).join(','), listFrom, repeatEnd);
  const line = {
    repeatEnd,
    repeatStart: sign.endsWith(':'),
    ...(words.times === undefined ? {} : { times: words.times }),
    ...(words.endings.length === 0 ? {} : { endings: words.endings }),
    ...(close === undefined ? {} : ({ close } as const)),
    ...(words.signs.length === 0 ? {} : { signs: words.signs }),
  };
  if (count?.times && times === undefined) return { line, to: count.to, unknown: [{ from: to, to: count.to }] };
  // `|D.S. al Coda` and `|to coda` are one mistake.
  const last = listFrom + (list ?? '').lastIndexOf(',') + 1;
  const spelled = times === undefined && numbers === undefined ? jumpWords(text, last) : undefined;
  if (!spelled || spelled.to <= to) return { line, to, unknown: words.unknown };
  const { signs: _, ...plainLine } = line;
  return { line: plainLine, to: spelled.to, unknown: [{ from: last, to: spelled.to }] };
}

/** What the list behind a bar line says: `x3`, numbers of endings, signs of jumps. */
function readList(list: string, from: number, repeatEnd: boolean) {
  let times: number | undefined;
  const endings = new Set<number>();
  const signs: WrittenSign[] = [];
  const unknown: TextSpan[] = [];
  let at = from;
  for (const word of list.split(',')) {
    const span = { from: at, to: at + word.length };
    at = span.to + 1;
    const sign = signOf(word);
    if (/^\d$/.test(word)) endings.add(Number(word));
    else if (repeatEnd && /^x\d$/.test(word)) times = Number(word.slice(1));
    else if (sign) signs.push({ sign, span });
    else if (word !== '') unknown.push(span);
  }
  return { times, endings: [...endings].sort(), signs, unknown };
}

const plain = (word: string): string => word.replace(/[.-]/g, '').toLowerCase();

const BY_WORD = new Map(JUMP_SIGNS.map((sign) => [plain(sign), sign]));

/** Capitals, periods and hyphens make no difference: `ds` is D.S. A period behind a whole word does. */
const signOf = (word: string): JumpSign | undefined =>
  /^(?:[a-z]+-[a-z]+|[a-z]+|[a-z]\.[a-z]\.?)$/i.test(word) ? BY_WORD.get(plain(word)) : undefined;

const OTHER_WORDS: readonly Known[] = [
  ...JUMP_SIGNS,
  ['da-capo', 'D.C.'],
  ['dacapo', 'D.C.'],
  ['dal-segno', 'D.S.'],
  ['dalsegno', 'D.S.'],
  ['dacoda', 'to-coda'],
  ['sign', 'segno'],
  ['end', 'fine'],
];

/** What is said about a count in other signs: it is of bars that rest, or of times that a repeat is played. */
export const countProblem = (text: string, { count, rest, times }: CountWords, span: TextSpan): Diagnostic =>
  times
    ? report('times-spelled', span, { text, count, rest }, rest ? undefined : countFix('x', count, span))
    : report(
        'rest-bars',
        span,
        { why: 'spelled', count },
        text.startsWith('.') ? countFix('.x', count, span) : undefined,
      );

/** The count as it is read here. A count that is out of range has none. */
const countFix = (sign: string, count: number | undefined, span: TextSpan): Fix | undefined =>
  count !== undefined && count >= 2 && count <= (sign === 'x' ? 9 : MOST_REST_BARS)
    ? certainly(span, `${sign}${count}`)
    : undefined;

/** What is said about words of a text that mean nothing behind their bar lines. */
export const wordProblems = (text: string, spans: readonly TextSpan[]): Diagnostic[] =>
  spans.map((span) => {
    const word = text.slice(span.from, span.to);
    const count = countWords(text, span.from);
    if (count?.to === span.to) return countProblem(nameOfText(word), count, span);
    const jump = jumpWords(text, span.from);
    if (jump?.to === span.to) {
      const isSign = signOf(word) !== undefined;
      return report('jump-spelled', span, { text: nameOfText(word), isSign, help: jump.help });
    }
    return report('bar-word-unknown', span, { text: nameOfText(word), nearest: nearest(word, OTHER_WORDS) });
  });
