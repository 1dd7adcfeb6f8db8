/** The items of a block laid into bars: onsets, ties, embouchures, lyrics, repeats and endings. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { Mouth, Source } from '../score/score.ts';
import { add, type Fraction, ZERO } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { type Change, changed } from './changes.ts';
import type { Flowing } from './flowing.ts';
import { report } from './problems.ts';
import type { Settings } from './settings.ts';
import type { NoteItem } from './tree.ts';
import { putSyllables, putVerse, type TextUnder, textUnder, type WithTextUnder } from './under/text-under.ts';

/** A bar being laid. It changes while later passes number it, harmonise it and check it, and ends as a `Bar`. */
export interface DraftBar {
  events: DraftEvent[];
  /** Chord symbols written in the bar. */
  chords: { readonly onset: Fraction; readonly text: string }[];
  /** Chords that quotations are moved to, where the progression says which chord there is. */
  expected: { readonly onset: Fraction; readonly text: string; readonly span: TextSpan }[];
  length: Fraction;
  span: TextSpan;
  /** Holds something unreadable, so that its length says nothing. */
  unsure: boolean;
  repeatStart: boolean;
  repeatEnd: boolean;
  /** The ending that opens here. */
  opens?: readonly number[];
  /** The ending this bar belongs to. */
  endings?: readonly number[];
  times?: number;
  close?: 'double' | 'final';
  part?: string;
  direction?: string;
  /** What changes before it. */
  change?: Change;
  number: number;
}

/** The settings that apply in a bar. The key is the mode that the author named for it. */
export type DraftSettings = Pick<Settings, 'position' | 'key' | 'meter' | 'feel' | 'slot'>;

/** What applies in each bar: what is written before it or before an earlier one. */
export function settingsOfBars(bars: readonly DraftBar[], start: DraftSettings): DraftSettings[] {
  let settings = start;
  let beforeEndings = settings;
  return bars.map(({ opens, change }) => {
    if (opens?.includes(1)) beforeEndings = settings;
    else if (opens) settings = beforeEndings;
    if (change) settings = changed(settings, change);
    return settings;
  });
}

/** An event laid out in time, before its chord and pitch are known. */
export type DraftEvent = DraftSound | DraftRest;

interface DraftTimed {
  onset: Fraction;
  duration: Fraction;
  source: Source;
}

/** A rest laid out in time. */
export interface DraftRest extends DraftTimed {
  kind: 'rest';
}

/** Notes on one breath, laid out in time. */
export interface DraftSound extends DraftTimed, WithTextUnder {
  kind: 'sound';
  note: NoteItem;
  mouth: Mouth;
  tied: boolean;
  glide?: TextSpan;
}

const emptyBar = (): DraftBar => ({
  events: [],
  chords: [],
  expected: [],
  length: ZERO,
  // Until the first thing of the bar, or its bar line, is known.
  span: { from: 0, to: 0 },
  unsure: false,
  repeatStart: false,
  repeatEnd: false,
  number: 0,
});

/** Lays the items into bars. `mouth` is the embouchure at the start. */
export function layBars(stream: readonly Flowing[], startMouth: Mouth, diagnostics: Diagnostic[]): DraftBar[] {
  const bars: DraftBar[] = [];
  let bar = emptyBar();
  let mouth = startMouth;
  let last: DraftEvent | undefined;
  /** What sounded where the first ending began, and how: the other endings continue from there. */
  let beforeEndings: { last: DraftEvent | undefined; mouth: Mouth } = { last: undefined, mouth };
  let lineSounds: DraftSound[] = [];
  let under: TextUnder | undefined;
  let lineHasMusic = false;
  /** Whether a plain bar line was the last thing on this written line. */
  let lineBefore = false;
  /** A line about the bar after it, as long as that one has nothing. */
  let ahead: { readonly key: string; readonly span: TextSpan } | undefined;
  /** Whether this bar has anything yet; until then its place is its bar line's. */
  let started = false;

  for (const item of stream) {
    switch (item.kind) {
      case 'note':
        place({
          kind: 'sound',
          onset: bar.length,
          duration: item.duration,
          source: item.source,
          note: item.note,
          mouth: item.note.mouth ?? mouth,
          tied: false,
        });
        if (last?.kind === 'sound') lineSounds.push(last);
        break;
      case 'rest':
        if (last?.kind === 'rest' && last === bar.events.at(-1)) lengthen(last, item.duration);
        else place({ kind: 'rest', onset: bar.length, duration: item.duration, source: item.source });
        break;
      case 'hold':
        hold(item);
        break;
      case 'unreadable':
        bar.unsure = true;
        bar.length = add(bar.length, item.duration);
        last = undefined;
        break;
      case 'chord':
        bar.chords.push({ onset: bar.length, text: item.text });
        break;
      case 'expected-chord':
        bar.expected.push({ onset: bar.length, text: item.text, span: item.source.span });
        break;
      case 'mouth':
        mouth = item.mouth;
        break;
      case 'glide':
        if (last?.kind === 'sound') last.glide = item.source.span;
        else if (!bar.unsure) diagnostics.push(report('glide-without-note', item.source.span, {}));
        break;
      case 'bar':
        barLine(item);
        continue;
      case 'part':
        if (!isEmpty(bar)) finish();
        bar.part = item.name;
        ahead = { key: 'part', span: item.source.span };
        break;
      case 'direction':
        if (!isEmpty(bar)) finish();
        bar.direction = bar.direction === undefined ? item.text : `${bar.direction} ${item.text}`;
        ahead = { key: 'text', span: item.source.span };
        break;
      case 'change':
        if (!isEmpty(bar)) finish();
        if (item.key !== undefined && bar.change && item.key in bar.change)
          diagnostics.push(report('header-twice', item.source.span, { key: item.key }));
        bar.change = bar.change ? { ...bar.change, ...item.change } : item.change;
        if (item.key !== undefined) ahead = { key: item.key, span: item.source.span };
        break;
      case 'line-end':
        lineBefore = false;
        if (lineHasMusic) under = textUnder(lineSounds);
        lineSounds = [];
        lineHasMusic = false;
        continue;
      case 'words':
        if (under) putVerse(under, item, diagnostics);
        else diagnostics.push(report('words-misplaced', item.source.span, {}));
        continue;
      case 'syllables':
        if (under) putSyllables(under, item, diagnostics);
        else diagnostics.push(report('syllables-misplaced', item.source.span, {}));
        continue;
    }
    lineBefore = false;
    lineHasMusic = true;
    bar.span = started ? { from: bar.span.from, to: Math.max(bar.span.to, item.site.to) } : item.site;
    started = true;
  }
  if (!isEmpty(bar)) finish();
  else if (ahead && bars.length > 0) diagnostics.push(report('nothing-follows', ahead.span, { key: ahead.key }));
  return bars;

  function place(event: DraftEvent): void {
    bar.events.push(event);
    bar.length = add(bar.length, event.duration);
    last = event;
  }

  function lengthen(event: DraftEvent, duration: Fraction): void {
    event.duration = add(event.duration, duration);
    bar.length = add(bar.length, duration);
  }

  function hold(item: Extract<Flowing, { kind: 'hold' }>): void {
    if (last?.kind !== 'sound') {
      if (!bar.unsure || last) {
        const after = last?.kind === 'rest' ? 'rest' : 'nothing';
        diagnostics.push(report('hold-without-note', item.source.span, { slots: item.slots, after }));
      }
      bar.unsure = true;
      bar.length = add(bar.length, item.duration);
    } else if (last === bar.events.at(-1)) lengthen(last, item.duration);
    else {
      const held: DraftSound = last;
      const { glide, words: _, syllable: __, ...rest } = held;
      const { duration, source } = item;
      place({ ...rest, onset: bar.length, duration, source, tied: true, ...(glide ? { glide } : {}) });
      // A glide leaves from the end of the note, wherever that now is.
      delete held.glide;
    }
  }

  function barLine({ line, site }: Extract<Flowing, { kind: 'bar' }>): void {
    const plain = !line.repeatStart && !line.repeatEnd && line.endings === undefined && line.close === undefined;
    if (!isEmpty(bar)) finish();
    // A chord before the first line is that of the bar it opens.
    else if ((plain && lineBefore) || (bar.chords.length > 0 && bars.length > 0))
      diagnostics.push(report('bar-empty', site, {}));
    const before = bars.at(-1);
    if (before && line.repeatEnd) before.repeatEnd = true;
    if (before && line.times !== undefined && line.times > 2) before.times = line.times;
    if (before && line.close) before.close = line.close;
    if (line.repeatStart) bar.repeatStart = true;
    if (line.endings !== undefined) {
      bar.opens = line.endings;
      if (line.endings.includes(1)) beforeEndings = { last, mouth };
      else ({ last, mouth } = beforeEndings);
    }
    bar.span = site;
    started = false;
    lineBefore = plain;
  }

  function finish(): void {
    ahead = undefined;
    bars.push(bar);
    bar = emptyBar();
    started = false;
  }
}

const isEmpty = (bar: DraftBar): boolean => bar.events.length === 0 && !bar.unsure;

/** Says which bars each ending takes, and that every ending and repeat has its other end; then numbers the bars. */
export function closeRepeats(bars: readonly DraftBar[], hasPickup: boolean, diagnostics: Diagnostic[]): void {
  let firstFrom = 0;
  let firstCount = 0;
  /** The times for which the repeat has endings so far. */
  let passes = new Set<number>();
  bars.forEach((bar, index) => {
    if (bar.repeatStart && !endsBeforeNextStart(bars, index)) diagnostics.push(report('repeat-unclosed', bar.span, {}));
    const { opens } = bar;
    if (opens === undefined) return;
    const isFirst = opens.includes(1);
    if (isFirst) passes = new Set();
    const before = bars[index - 1];
    const follows = before?.repeatEnd && before.endings !== undefined && opens[0] === firstWithout(passes);
    const belongs = isFirst || (follows && !opens.some((pass) => passes.has(pass)));
    const run = belongs ? endingRun(bars, index, isFirst ? undefined : firstCount) : undefined;
    if (run === undefined) {
      diagnostics.push(report('ending-misplaced', bar.span, { endings: opens }));
      return;
    }
    if (isFirst) [firstFrom, firstCount] = [index, run];
    for (const pass of opens) passes.add(pass);
    for (let i = index; i < index + run; i++) itemAt(bars, i).endings = opens;
    const missing = firstWithout(passes);
    if (bars[index + run]?.opens === undefined && missing < Math.max(...passes))
      diagnostics.push(report('ending-missing', bar.span, { missing }));
  });
  for (const { times, endings, span } of bars)
    if (times !== undefined && endings) diagnostics.push(report('times-with-endings', span, { times }));
  let number = hasPickup ? 0 : 1;
  bars.forEach((bar, index) => {
    const isFirst = bar.opens?.includes(1);
    if (isFirst === false) number = bars[firstFrom]?.number ?? number;
    bar.number = number;
    if (isFirst) firstFrom = index;
    number++;
  });
}

/** The first time through a repeat that has no ending yet. */
function firstWithout(passes: ReadonlySet<number>): number {
  let pass = 1;
  while (passes.has(pass)) pass++;
  return pass;
}

function endsBeforeNextStart(bars: readonly DraftBar[], start: number): boolean {
  for (let i = start; i < bars.length; i++) {
    if (i > start && bars[i]?.repeatStart) return false;
    if (bars[i]?.repeatEnd) return true;
  }
  return false;
}

/**
 * How many bars an ending takes. The first one (`like` undefined) leads up to its repeat sign; the others too, or to a
 * closing line, or else are as long as the first. Undefined for a first ending without a repeat sign.
 */
function endingRun(bars: readonly DraftBar[], index: number, like: number | undefined): number | undefined {
  for (let i = index; i < bars.length; i++) {
    const bar = itemAt(bars, i);
    if (i > index && (bar.opens !== undefined || bar.repeatStart)) return like === undefined ? undefined : i - index;
    if (bar.repeatEnd || (like !== undefined && bar.close)) return i - index + 1;
    if (like !== undefined && i - index + 1 === like && !leadsToRepeat(bars, i + 1)) return like;
  }
  return like === undefined ? undefined : bars.length - index;
}

function leadsToRepeat(bars: readonly DraftBar[], from: number): boolean {
  for (let i = from; i < bars.length; i++) {
    const bar = itemAt(bars, i);
    if (bar.opens !== undefined || bar.repeatStart || bar.close) return false;
    if (bar.repeatEnd) return bars[i + 1]?.opens !== undefined;
  }
  return false;
}
