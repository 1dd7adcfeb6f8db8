// Random blocks whose settings change between bars, and what they mean in seconds: from theory and from the guide to the notation, without
// the code that is checked with it. A gradual tempo is integrated in small steps.

import type { Frac } from './frac.ts';
import { add, cmp, frac, ZERO } from './frac.ts';
import { firstHole, HARP_KEYS, playables, tonicOf } from './instrument.ts';
import { MAJOR, mod12 } from './pitch.ts';
import { Random } from './random.ts';
import { fraction } from './settings.ts';
import { swung } from './time.ts';

/** What holds in a bar. */
interface State {
  meter: string;
  slot: string;
  feel: string;
  position: number;
}
interface TempoLine {
  from?: number;
  to?: number;
}
interface Note {
  at: Frac;
  midi: number;
  fermata: boolean;
  grace: number | undefined;
  length: Frac; // with what is held on in later bars
  end: { bar: number; at: Frac };
}
interface Page {
  before: string; // the bar line in front of it
  ending?: number;
  branch?: number; // the bar it follows where that is not the one before it on the page
  joins: boolean; // a note may be held into it
  state: State;
  tempo?: TempoLine;
  chord: { pc: number; small: boolean };
  notes: Note[];
  words: string[];
  lines: string[];
}
export interface ChangingBar {
  meter: string;
  tonic: number; // pitch class
  root: number; // pitch class of its chord
  numeral: string;
}
export interface ChangingAttack {
  seconds: number;
  midi: number;
  grace?: number; // what sounds for a moment before it
}
export interface ChangingSample {
  text: string;
  bars: ChangingBar[];
  /** Bars in the order they are played, each with its length as a part of a whole note. */
  order: number[];
  lengths: Frac[];
  played: ChangingAttack[];
  features: Set<string>;
}

const METERS = ['4/4', '4/4', '3/4', '2/4', '6/8', '12/8', '5/4', '9/8'];
const FEELS = ['straight', 'straight', 'shuffle', '60:40', '70:30'];
const TEMPOS = [40, 56, 72.5, 90, 100, 132, 160, 208];
/** abc2midi reads whole numbers only. */
const WHOLE_TEMPOS = TEMPOS.map(Math.floor);

const isCompound = (meter: string): boolean => meter.endsWith('/8');
/** The beat that is tapped, whose number a minute is the tempo: a dotted quarter in compound meters (any textbook). */
const beatOf = (meter: string): number => (isCompound(meter) ? 3 / 8 : 1 / 4);
const real = ([n, d]: Frac): number => n / d;

/** Numerals of all twelve roots above the tonic, counted from its major scale (popular-music practice). */
const NUMERALS = ['I', 'bII', 'II', 'bIII', 'III', 'IV', '#IV', 'V', 'bVI', 'VI', 'bVII', 'VII'];
function numeralOf({ pc, small }: Page['chord'], tonic: number): string {
  const text = NUMERALS[mod12(pc - tonic)]!;
  return `${small ? text.toLowerCase() : text}7`;
}

function slotFor(r: Random, meter: string): string {
  return r.pick(meter === '9/8' ? ['1/8', '1/16'] : ['1/8', '1/8', '1/4', '1/16']);
}

/** The bars with their signs, in page order, and the order of playing. */
function shape(
  r: Random,
  features: Set<string>,
): { pages: Pick<Page, 'before' | 'ending' | 'branch' | 'joins'>[]; order: number[]; end: string } {
  const pages: Pick<Page, 'before' | 'ending' | 'branch' | 'joins'>[] = [];
  const order: number[] = [];
  let line = '';
  const put = (joins: boolean, more: { ending?: number; branch?: number } = {}): number => {
    pages.push({ before: line, joins, ...more });
    line = '|';
    return pages.length - 1;
  };
  const parts = r.int(1, 3);
  for (let part = 0; part < parts; part++) {
    const length = r.int(1, 3);
    if (r.chance(0.55)) {
      for (let i = 0; i < length; i++) order.push(put(part > 0 || i > 0 ? line === '|' : false));
      continue;
    }
    line = line === ':|' ? ':|:' : '|:';
    const body = Array.from({ length }, (_, i) => put(i > 0));
    features.add('repeat');
    if (r.chance(0.4)) {
      order.push(...body, ...body);
      line = ':|';
      continue;
    }
    features.add('ending');
    const last = body[body.length - 1]!;
    line = '|1';
    const one = Array.from({ length: r.int(1, 2) }, (_, i) => put(i > 0, { ending: 1 }));
    line = ':|2';
    const two = Array.from({ length: one.length }, (_, i) =>
      put(i > 0, { ending: 2, ...(i === 0 ? { branch: last } : {}) }),
    );
    order.push(...body, ...one, ...body, ...two);
    line = '||';
  }
  return { pages, order, end: line === '|' ? '|]' : line };
}

/** The block of a seed. A plain one has no gradual tempo, no fermata and no swing, which programs play in their own ways; `graces` writes grace notes. */
export function changingSample(seed: number, plain = false, graces = false): ChangingSample {
  const tempos = plain ? WHOLE_TEMPOS : TEMPOS;
  const feels = plain ? ['straight'] : FEELS;
  const r = new Random(seed);
  const features = new Set<string>();
  const harp = r.pick(HARP_KEYS);
  const low = firstHole(harp, '');
  const holes = playables('richter').filter(({ kind }) => kind === 'plain' || kind === 'bend');
  const { pages: plan, order, end } = shape(r, features);
  const meter = r.pick(METERS);
  const start: State = { meter, slot: slotFor(r, meter), feel: r.pick(feels), position: r.int(1, 12) };
  const startTempo = r.pick(tempos);
  const pages: Page[] = [];
  let open: Note | undefined;
  plan.forEach((bar, index) => {
    const from = pages[bar.branch ?? index - 1];
    const state: State = { ...(from?.state ?? start) };
    const lines: string[] = [];
    const say = (key: string, value: string | number): void => {
      lines.push(`${key}: ${value}`);
      features.add(key);
    };
    let tempo: TempoLine | undefined;
    if (index > 0) {
      if (r.chance(0.25)) {
        state.meter = r.pick(METERS);
        if (state.meter !== from!.state.meter) say('meter', state.meter);
      }
      const [a, b] = [fraction(state.meter), fraction(state.slot)];
      if (r.chance(0.15) || !Number.isInteger(real(a) / real(b))) {
        const slot = slotFor(r, state.meter);
        if (slot !== state.slot) say('slot', slot);
        state.slot = slot;
      }
      if (r.chance(0.15)) {
        state.feel = r.pick(feels);
        say('feel', state.feel);
      }
      if (r.chance(0.2)) {
        const position = r.int(1, 12);
        if (position !== state.position) say('position', position);
        state.position = position;
      }
      if (r.chance(0.35)) {
        const kind = plain ? 'at once' : r.pick(['at once', 'at once', 'to', 'from-to']);
        tempo = {};
        if (kind !== 'to') tempo.from = r.pick(tempos);
        if (kind !== 'at once') tempo.to = r.pick(tempos);
        const said = [tempo.from, ...(tempo.to === undefined ? [] : ['to', tempo.to])].filter((x) => x !== undefined);
        lines.push(`tempo: ${said.join(' ')}`);
        features.add(kind === 'at once' ? 'tempo' : 'gradual');
      }
    }
    const tonic = tonicOf(harp, state.position);
    let chord = from?.chord;
    const words: string[] = [];
    if (chord === undefined || !bar.joins || bar.branch !== undefined || r.chance(0.3)) {
      chord = { pc: mod12(tonic + MAJOR[r.pick([0, 3, 4])]!), small: r.chance(0.2) };
      words.push(`"${numeralOf(chord, tonic)}"`);
    } else if (state.position !== from!.state.position) features.add('chord-over-new-position');
    const slot = fraction(state.slot);
    const notes: Note[] = [];
    if (!bar.joins) open = undefined;
    let at = ZERO;
    while (cmp(at, fraction(state.meter)) < 0) {
      const kind = open
        ? r.weighted([
            ['note', 6],
            ['hold', 3],
            ['rest', 1],
          ])
        : r.weighted([
            ['note', 6],
            ['rest', 1],
          ]);
      const next = add(at, slot);
      if (kind === 'note') {
        const { text, half } = r.pick(holes);
        const fermata = !plain && r.chance(0.05);
        if (fermata) features.add('fermata');
        const small = graces && r.chance(0.2) ? r.pick(holes) : undefined;
        const grace = small && low + small.half;
        open = { at, midi: low + half, fermata, grace, length: slot, end: { bar: index, at: next } };
        notes.push(open);
        words.push(text + (fermata ? '[fermata]' : '') + (small ? `[grace ${small.text}]` : ''));
      } else if (kind === 'hold') {
        if (cmp(at, ZERO) === 0) features.add('tie-over-bar');
        open!.length = add(open!.length, slot);
        open!.end = { bar: index, at: next };
        words.push('=');
      } else {
        open = undefined;
        words.push('.');
      }
      at = next;
    }
    pages.push({ ...bar, state, chord, notes, words, lines, ...(tempo ? { tempo } : {}) });
  });
  if (pages.some(({ state }) => state.feel !== 'straight' && !isCompound(state.meter))) features.add('swing');
  return {
    text: textOf(harp, start, startTempo, pages, end),
    bars: pages.map(({ state, chord }) => {
      const tonic = tonicOf(harp, state.position);
      return { meter: state.meter, tonic: mod12(tonic), root: chord.pc, numeral: numeralOf(chord, tonic) };
    }),
    order,
    lengths: pages.map(({ state }) => fraction(state.meter)),
    played: playedBy(pages, order, temposOf(pages, startTempo)),
    features,
  };
}

function textOf(harp: string, start: State, tempo: number, pages: Page[], end: string): string {
  const lines = [
    `harp: ${harp}`,
    ...Object.entries(start).map(([key, value]) => `${key}: ${value}`),
    `tempo: ${tempo}`,
    '',
  ];
  let line: string[] = [];
  for (const page of pages) {
    if (page.before !== '') line.push(page.before);
    if (page.lines.length > 0 && line.length > 0) {
      lines.push(line.join(' '));
      line = [];
    }
    lines.push(...page.lines);
    line.push(...page.words);
  }
  return [...lines, [...line, end].join(' ')].join('\n');
}

/**
 * The tempo at both ends of each bar. A gradual change moves evenly with the written time up to the next tempo or to the end. A later ending
 * continues from the bar before the first one, so it has the tempo of that moment: at its place in a change that began before the endings, else
 * unchanged.
 */
function temposOf(pages: Page[], start: number): [number, number][] {
  const length = (i: number): number => real(fraction(pages[i]!.state.meter));
  const out: [number, number][] = [];
  let now = start;
  for (let i = 0; i < pages.length; ) {
    const { tempo, branch } = pages[i]!;
    if (branch !== undefined) now = out[branch]![1];
    now = tempo?.from ?? now;
    if (tempo?.to === undefined) {
      out.push([now, now]);
      i++;
      continue;
    }
    // Places on the way it is played, in whole notes from where the change begins.
    const places: [number, number][] = [];
    let end = i;
    for (; end < pages.length && (end === i || pages[end]!.tempo === undefined); end++) {
      const back = pages[end]!.branch;
      if (end > i && back !== undefined && back < i) break;
      const from = end === i ? 0 : places[(end > i && back !== undefined ? back : end - 1) - i]![1];
      places.push([from, from + length(end)]);
    }
    const whole = Math.max(...places.map(([, to]) => to));
    const [first, goal] = [now, tempo.to];
    for (const [from, to] of places)
      out.push([first + ((goal - first) * from) / whole, first + ((goal - first) * to) / whole]);
    i = end;
    now = out[end - 1]![1];
  }
  return out;
}

/** Attacks in seconds from the first bar's start. */
function playedBy(pages: Page[], order: number[], tempos: [number, number][]): ChangingAttack[] {
  const waits = pages.map((): { at: Frac; length: number }[] => []);
  for (const note of pages.flatMap(({ notes }) => notes)) {
    if (!note.fermata) continue;
    // As long again as it is written, by at least a beat and at most two: a convention of the notation.
    const beat = beatOf(pages[note.end.bar]!.state.meter);
    waits[note.end.bar]!.push({ at: note.end.at, length: Math.min(Math.max(real(note.length), beat), 2 * beat) });
  }
  const out: ChangingAttack[] = [];
  let begin = 0;
  for (const index of order) {
    const { state, notes } = pages[index]!;
    const whole = real(fraction(state.meter));
    const beat = beatOf(state.meter);
    const [from, to] = tempos[index]!;
    const secondsOfWholeAt = (place: number): number => 60 / ((from + ((to - from) * place) / whole) * beat);
    const share = state.feel === 'straight' || isCompound(state.meter) ? undefined : shareOf(state.feel);
    const flow = (written: Frac): number => {
      const place = real(swung(written, share));
      // The midpoint rule: the error shrinks with the square of the step.
      const steps = from === to ? 1 : 2000;
      let sum = 0;
      for (let i = 0; i < steps; i++) sum += secondsOfWholeAt((place * (i + 0.5)) / steps);
      return (sum * place) / steps;
    };
    const seconds = (written: Frac): number =>
      waits[index]!.reduce(
        (sum, { at, length }) =>
          cmp(at, written) <= 0 ? sum + length * secondsOfWholeAt(real(swung(at, share))) : sum,
        flow(written),
      );
    for (const { at, midi, grace } of notes)
      out.push({ seconds: begin + seconds(at), midi, ...(grace === undefined ? {} : { grace }) });
    begin += seconds(fraction(state.meter));
  }
  return out;
}

function shareOf(feel: string): Frac {
  const [a, b] = feel === 'shuffle' ? [2, 1] : feel.split(':').map(Number);
  return frac(a!, a! + b!);
}
