/**
 * What the address of a block asks to be played, in its query: `?bars=3-4&tempo=60&loop=no&harp=low+F`. The site’s pages, `check` and
 * the button that copies a link all read and write it here.
 */
import { type Harp, harpName, readHarp } from '../instrument/harp.ts';
import { RICHTER } from '../instrument/tuning.ts';
import { barName, barsNamed, type NamedBar } from '../score/bar-name.ts';
import type { BarRange } from './settings.ts';

/** What a link asks for. */
export interface BlockLink {
  /** Indices into the bars of the block; all of it where there are none. */
  readonly bars?: BarRange;
  /** Beats a minute, in the unit of the block’s own tempo; as written where there is none. */
  readonly tempo?: number;
  readonly loop: boolean;
  readonly harp?: Pick<Harp, 'key' | 'register'>;
  /** The id of the harp’s tuning. */
  readonly tuning?: string;
}

/** What a link is read against. What is unknown of the block is not checked. */
export interface LinkedBlock {
  readonly bars?: readonly NamedBar[];
  readonly tempo?: number;
  /** Ids of the tunings there are. */
  readonly tunings?: readonly string[];
}

/** The parameters, in the order in which they are written. */
export const LINK_PARAMETERS = ['bars', 'tempo', 'loop', 'harp', 'tuning'] as const;
type LinkParameter = (typeof LINK_PARAMETERS)[number];
/** Those that ask for the block to be played so. */
export const PLAY_PARAMETERS: readonly LinkParameter[] = ['bars', 'tempo', 'loop'];

/** How far a link may slow the written tempo down or speed it up, in percent: as far as the player does. */
const LINK_TEMPO = { least: 30, most: 150 };

/** What is wrong with a part of a query, and where: offsets in the query as it was given. `value` is as it was written, decoded. */
export type LinkProblem = { readonly from: number; readonly to: number } & (
  | { readonly kind: 'unknown' | 'twice'; readonly name: string }
  /** `meant` is the value in the form that can be read, as far as it can be guessed; `isSame` that it can mean nothing else. */
  | {
      readonly kind: 'unreadable';
      readonly name: LinkParameter;
      readonly value: string;
      readonly meant?: string;
      readonly isSame?: true;
    }
  | { readonly kind: 'no-bar'; readonly value: string }
  /** A number that is that of several endings’ bars, and what these are called. */
  | { readonly kind: 'which-bar'; readonly value: string; readonly names: readonly string[] }
  | { readonly kind: 'backwards'; readonly value: string; readonly meant: string }
  /** The limits are in beats a minute where the tempo of the block is known, otherwise in percent. */
  | {
      readonly kind: 'tempo-range';
      readonly value: string;
      readonly least: string;
      readonly most: string;
      readonly meant: string;
    }
  | { readonly kind: 'no-harp' | 'no-tuning'; readonly value: string }
);

/** A query as it was read. What has a problem is not part of the link. */
export interface LinkRead {
  readonly link: BlockLink;
  readonly problems: readonly LinkProblem[];
  /** The names that are in it and known, whatever their values. */
  readonly named: ReadonlySet<string>;
}

/** A parameter where it is written. */
interface Written {
  readonly name: string;
  readonly value: string;
  /** Where the name is, and the value. */
  readonly nameAt: Place;
  readonly at: Place;
}
interface Place {
  readonly from: number;
  readonly to: number;
}

/** Reads a query with or without its question mark. It never throws. */
export function readBlockLink(query: string, block: LinkedBlock = {}): LinkRead {
  const problems: LinkProblem[] = [];
  const first = new Map<string, Written>();
  for (const one of parametersOf(query)) {
    if (!LINK_PARAMETERS.some((name) => name === one.name))
      problems.push({ kind: 'unknown', name: one.name, ...one.nameAt });
    else if (first.has(one.name)) problems.push({ kind: 'twice', name: one.name, ...one.nameAt });
    else first.set(one.name, one);
  }
  const report: Report = (problem) => {
    problems.push(problem);
  };
  const [bars, tempo, loop, harp, tuning] = [
    readBars(first.get('bars'), block.bars, report),
    readTempo(first.get('tempo'), block.tempo, report),
    readLoop(first.get('loop'), report),
    readKey(first.get('harp'), report),
    readTuning(first.get('tuning'), block.tunings, report),
  ];
  const link: BlockLink = {
    ...(bars && { bars }),
    ...(tempo === undefined ? {} : { tempo }),
    loop: loop ?? bars !== undefined,
    ...(harp && { harp }),
    ...(tuning === undefined ? {} : { tuning }),
  };
  return { link, problems: problems.sort((a, b) => a.from - b.from), named: new Set(first.keys()) };
}

/** The query that asks for this, with its question mark; nothing for a block as it is written. */
export function writeBlockLink({ bars, tempo, loop, harp, tuning }: BlockLink, all: readonly NamedBar[]): string {
  const values: Readonly<Record<LinkParameter, string | undefined>> = {
    bars: bars && rangeName(all, bars),
    tempo: tempo === undefined ? undefined : `${tempo}`,
    loop: loop === (bars !== undefined) ? undefined : loop ? 'yes' : 'no',
    harp: harp && harpName({ ...harp, tuning: RICHTER }),
    tuning,
  };
  const written = LINK_PARAMETERS.flatMap((name) => {
    const value = values[name];
    return value === undefined ? [] : [`${name}=${encodeURIComponent(value).replaceAll('%20', '+')}`];
  });
  return written.length === 0 ? '' : `?${written.join('&')}`;
}

/** A tempo as a link has it: with two decimals at most. */
export const linkTempo = (tempo: number): number => Math.round(tempo * 100) / 100;

const rangeName = (bars: readonly NamedBar[], { first, last }: BarRange): string =>
  first === last ? barName(bars, first) : `${barName(bars, first)}-${barName(bars, last)}`;

/** The parameters of a query in their order. Parts without a name are left out. */
function* parametersOf(query: string): Generator<Written> {
  let from = query.startsWith('?') ? 1 : 0;
  for (const part of query.slice(from).split('&')) {
    const equals = part.indexOf('=');
    const name = equals < 0 ? part : part.slice(0, equals);
    const to = from + part.length;
    const nameAt = { from, to: from + name.length };
    const at = equals < 0 ? nameAt : { from: from + equals + 1, to };
    if (name !== '')
      yield { name: decoded(name), value: decoded(equals < 0 ? '' : part.slice(equals + 1)), nameAt, at };
    from = to + 1;
  }
}

/** As a browser reads a query: what is no escape is itself, so that `60%` is what it seems to be. */
function decoded(text: string): string {
  const spaced = text.replaceAll('+', ' ');
  return spaced.replace(/(?:%[\da-f]{2})+/gi, (escaped) => {
    try {
      return decodeURIComponent(escaped);
    } catch {
      return escaped;
    }
  });
}

/** Readers of one parameter report what is wrong with it; its value is then undefined, as where it is not written. */
type Report = (problem: LinkProblem) => undefined;

function readBars(
  written: Written | undefined,
  bars: readonly NamedBar[] | undefined,
  report: Report,
): BarRange | undefined {
  if (!written) return undefined;
  const { value, at } = written;
  const [, from, to = from] = /^(\d{1,5}(?:\.\d)?)(?:[-–](\d{1,5}(?:\.\d)?))?$/.exec(value) ?? [];
  if (from === undefined || to === undefined) {
    const numbers = value.match(/\d{1,5}(?:\.\d)?/g) ?? [];
    const guess = numbers.length === 1 || numbers.length === 2 ? { meant: numbers.join('-') } : {};
    return report({ kind: 'unreadable', name: 'bars', value, ...at, ...guess });
  }
  if (!bars) return undefined;
  // Where characters of the value are escaped, its parts are not at their own places.
  const isPlain = at.to - at.from === value.length;
  const placeOf = (start: number, name: string): Place =>
    isPlain ? { from: at.from + start, to: at.from + start + name.length } : at;
  const first = indexOf(from, placeOf(0, from), bars, report);
  if (first === undefined || value === from) return first === undefined ? undefined : { first, last: first };
  const last = indexOf(to, placeOf(from.length + 1, to), bars, report);
  if (last === undefined) return undefined;
  if (first > last) return report({ kind: 'backwards', value, meant: `${to}-${from}`, ...at });
  return { first, last };
}

function indexOf(name: string, at: Place, bars: readonly NamedBar[], report: Report): number | undefined {
  const [index, ...others] = barsNamed(bars, name);
  if (index === undefined) return report({ kind: 'no-bar', value: name, ...at });
  if (others.length === 0) return index;
  return report({ kind: 'which-bar', value: name, names: [index, ...others].map((one) => barName(bars, one)), ...at });
}

function readTempo(parameter: Written | undefined, written: number | undefined, report: Report): number | undefined {
  if (!parameter) return undefined;
  const { value, at } = parameter;
  const [, digits, percent] = /^(\d{1,4}(?:\.\d{1,4})?)(%?)$/.exec(value) ?? [];
  if (digits === undefined) {
    const [number, ...others] = value.match(/\d+(?:\.\d+)?%?/g) ?? [];
    const guess = number !== undefined && others.length === 0 ? { meant: number } : {};
    return report({ kind: 'unreadable', name: 'tempo', value, ...at, ...guess });
  }
  const sign = percent ? '%' : '';
  if (written === undefined && sign === '') return undefined;
  const limit = (share: number): number =>
    sign || written === undefined ? share : Math.round((written * share) / 100);
  const [number, least, most] = [Number(digits), limit(LINK_TEMPO.least), limit(LINK_TEMPO.most)];
  if (number < least || number > most) {
    const meant = `${number < least ? least : most}${sign}`;
    return report({ kind: 'tempo-range', value, least: `${least}${sign}`, most: `${most}${sign}`, meant, ...at });
  }
  return written === undefined ? undefined : linkTempo(sign ? (written * number) / 100 : number);
}

/** Other words for the two, which can mean nothing else. */
const LOOP_WORDS: ReadonlyMap<string, 'yes' | 'no'> = new Map([
  ...['yes', 'true', 'on', '1'].map((word) => [word, 'yes'] as const),
  ...['no', 'false', 'off', '0'].map((word) => [word, 'no'] as const),
]);

function readLoop(written: Written | undefined, report: Report): boolean | undefined {
  if (!written) return undefined;
  const { value, at } = written;
  if (value === 'yes' || value === 'no') return value === 'yes';
  const meant = LOOP_WORDS.get(value.toLowerCase().trim());
  const guess = meant === undefined ? {} : { meant, isSame: true as const };
  return report({ kind: 'unreadable', name: 'loop', value, ...at, ...guess });
}

function readKey(written: Written | undefined, report: Report): BlockLink['harp'] {
  if (!written) return undefined;
  const { value, at } = written;
  const read = readHarp(value, RICHTER);
  return read ? { key: read.key, register: read.register } : report({ kind: 'no-harp', value, ...at });
}

function readTuning(
  written: Written | undefined,
  tunings: readonly string[] | undefined,
  report: Report,
): string | undefined {
  if (!written) return undefined;
  const { value, at } = written;
  return tunings?.includes(value) === false ? report({ kind: 'no-tuning', value, ...at }) : value;
}
