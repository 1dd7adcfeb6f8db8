/** The items of a block laid into bars: onsets, ties, embouchures, lyrics, repeats and endings. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { throughEndings } from '../score/endings.ts';
import { isJumpTarget, type Jump, type JumpTarget } from '../score/jump.ts';
import type { Mouth, Source } from '../score/score.ts';
import { add, divide, type Fraction, format, ZERO } from '../time/fraction.ts';
import { barLength } from '../time/meter.ts';
import { type Change, changed } from './changes.ts';
import type { Flowing, Written } from './flowing.ts';
import type { AgainUnclear } from './jumps/again-problems.ts';
import { report } from './problems.ts';
import { MOST_EVENTS } from './quotation/quote-chain.ts';
import { slotName } from './setting-values.ts';
import type { Settings } from './settings.ts';
import type { NoteItem, WrittenSign } from './tree.ts';
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
  /** The bar line before it, where that is a plain one of this block. */
  lineSpan?: TextSpan;
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
  /** The bar before once more. */
  repeatsLast?: true;
  /** How many bars the rest is of that begins here, and whether this bar is in such a rest. */
  restBars?: number;
  inRest?: true;
  target?: JumpTarget;
  jump?: Jump;
  /** Where its target and its jump are written. */
  signSpans: { target?: TextSpan; jump?: TextSpan };
  part?: string;
  direction?: string;
  /** What changes before it. */
  change?: Change;
  /** Where its tempo is written, if one is. */
  tempoSpan?: TextSpan;
  number: number;
}

/** The settings that apply in a bar. The key is the mode that the author named for it. */
export type DraftSettings = Pick<Settings, 'position' | 'key' | 'meter' | 'feel' | 'slot'>;

/** What applies in each bar: what is written before it or before an earlier one. */
export function settingsOfBars(bars: readonly DraftBar[], start: DraftSettings): DraftSettings[] {
  let settings = start;
  const through = throughEndings(start);
  return bars.map(({ opens, change }) => {
    settings = through(settings, opens);
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
  /** Where it is in the block: at the quotation that brought it if one did. */
  site: TextSpan;
  mouth: Mouth;
  tied: boolean;
  glide?: TextSpan;
  /** A copy, of which all has been said. */
  copied?: true;
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
  signSpans: {},
  number: 0,
});

/** Lays the items into bars. `start` are the settings at the head. A bar in a rest of several has no length until its meter is known. */
export function layBars(stream: readonly Flowing[], start: Settings, diagnostics: Diagnostic[]): DraftBar[] {
  const bars: DraftBar[] = [];
  let bar = emptyBar();
  let { mouth } = start;
  /** The settings at this place. */
  let now: DraftSettings = start;
  let last: DraftEvent | undefined;
  /** The later endings continue what sounded where the first one began, with its embouchure. */
  const through = throughEndings({ last, mouth, now });
  /** The embouchure where the music leaves for the coda, which continues from there. No note is held so far. */
  let beforeCoda: Mouth | undefined;
  /** How many events are copies. */
  let copies = 0;
  let lineSounds: DraftSound[] = [];
  let under: TextUnder | undefined;
  let lineHasMusic = false;
  /** Whether what is unreadable may be notes of this written line. */
  let lineIsUnsure = false;
  /** Whether what a hold would be of is unreadable. */
  let afterUnreadable = false;
  /** Whether a plain bar line was the last thing on this written line. */
  let lineBefore = false;
  /** A line about the bar after it, as long as that one has nothing. */
  let ahead: { readonly key: string; readonly span: TextSpan } | undefined;
  /** Whether this bar has anything yet; until then its place is its bar line's. */
  let started = false;

  for (const item of stream) {
    if (bar.repeatsLast && isTimed(item)) {
      unclear(item, 'beside');
      continue;
    }
    if (bar.inRest && isTimed(item)) {
      if (!bar.unsure) diagnostics.push(report('rest-bars', item.source.span, { why: 'beside' }));
      bar.unsure = true;
      continue;
    }
    switch (item.kind) {
      case 'note':
        place({
          kind: 'sound',
          onset: bar.length,
          duration: item.duration,
          source: item.source,
          note: item.note,
          site: item.site,
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
        afterUnreadable = true;
        lineIsUnsure = true;
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
      case 'again':
        again(item);
        break;
      case 'rest-bars':
        restBars(item);
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
        now = changed(now, item.change);
        bar.change = bar.change ? { ...bar.change, ...item.change } : item.change;
        if (item.key === 'tempo') bar.tempoSpan = item.source.span;
        if (item.key !== undefined) ahead = { key: item.key, span: item.source.span };
        break;
      case 'line-end':
        lineBefore = false;
        if (lineHasMusic) under = textUnder(lineSounds, lineIsUnsure);
        lineSounds = [];
        lineHasMusic = false;
        lineIsUnsure = false;
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
  else if (bar.target && bar.signSpans.target)
    diagnostics.push(report('sign-misplaced', bar.signSpans.target, { sign: bar.target, why: 'no-bar-behind' }));
  else if (ahead && bars.length > 0) diagnostics.push(report('nothing-follows', ahead.span, { key: ahead.key }));
  return bars;

  function place(event: DraftEvent): void {
    bar.events.push(event);
    bar.length = add(bar.length, event.duration);
    last = event;
    afterUnreadable = false;
  }

  function lengthen(event: DraftEvent, duration: Fraction): void {
    event.duration = add(event.duration, duration);
    bar.length = add(bar.length, duration);
  }

  function hold(item: Extract<Flowing, { kind: 'hold' }>): void {
    if (last?.kind !== 'sound') {
      if (last || !(bar.unsure || afterUnreadable)) {
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

  function unclear({ source }: Written, why: AgainUnclear): void {
    if (!bar.unsure) diagnostics.push(report('again-unclear', source.span, { why }));
    bar.unsure = true;
  }

  function again(item: Written): void {
    const { source } = item;
    const before = bars.at(-1);
    const [first] = before?.events ?? [];
    if (!isEmpty(bar)) unclear(item, 'beside');
    else if (!before) unclear(item, 'first');
    else if (before.inRest) unclear(item, 'rest');
    else if (bar.repeatStart || bar.target || (bar.opens && !bar.opens.includes(1))) unclear(item, 'start');
    else if (first?.kind === 'sound' && first.tied) unclear(item, 'held');
    else if (copies + before.events.length > MOST_EVENTS) unclear(item, 'too-many');
    else {
      copies += before.events.length;
      bar.repeatsLast = true;
      bar.unsure = before.unsure;
      bar.length = before.length;
      bar.events = before.events.map((event): DraftEvent => {
        const copy = { ...event, source: { ...event.source, span: source.span } };
        if (copy.kind === 'rest') return copy;
        const { words: _words, syllable: _syllable, ...sound } = copy;
        return { ...sound, copied: true };
      });
      last = bar.events.at(-1);
    }
  }

  function restBars({ bars: count, source }: Extract<Flowing, { kind: 'rest-bars' }>): void {
    copies += count;
    if (!isEmpty(bar)) diagnostics.push(report('rest-bars', source.span, { why: 'beside' }));
    else if (copies > MOST_EVENTS)
      diagnostics.push(report('block-too-long', source.span, { limit: `${MOST_EVENTS} bars` }));
    else {
      bar.restBars = count;
      for (let index = 0; index < count; index++) {
        if (index > 0) finish();
        bar.inRest = true;
        bar.span = source.span;
        place({ kind: 'rest', onset: ZERO, duration: ZERO, source });
      }
      return;
    }
    bar.unsure = true;
  }

  function barLine({ line, site, source }: Extract<Flowing, { kind: 'bar' }>): void {
    const plain =
      !line.repeatStart && !line.repeatEnd && !line.endings && line.close === undefined && line.signs === undefined;
    if (!isEmpty(bar)) finish();
    // A chord before the first line is that of the bar it opens.
    else if ((plain && lineBefore) || (bar.chords.length > 0 && bars.length > 0)) {
      const slots = format(divide(barLength(now.meter), now.slot));
      diagnostics.push(report('bar-empty', site, { slots, slot: slotName(now.slot) }));
    }
    const before = bars.at(-1);
    if (before && line.repeatEnd) before.repeatEnd = true;
    if (before && line.times !== undefined && line.times > 2) before.times = line.times;
    if (before && line.close) before.close = line.close;
    if (line.repeatStart) bar.repeatStart = true;
    if (line.endings !== undefined) bar.opens = line.endings;
    ({ last, mouth, now } = through({ last, mouth, now }, line.endings));
    for (const sign of line.signs ?? []) signAt(sign, before);
    bar.span = site;
    if (plain && !source.quote && bars.length > 0) bar.lineSpan = source.span;
    started = false;
    lineBefore = plain;
  }

  function signAt({ sign, span }: WrittenSign, before: DraftBar | undefined): void {
    if (isJumpTarget(sign)) {
      if (bar.target) {
        diagnostics.push(report('signs-together', span, { signs: [bar.target, sign] }));
        return;
      }
      bar.target = sign;
      bar.signSpans.target = span;
      if (sign === 'coda') [last, mouth] = [undefined, beforeCoda ?? mouth];
    } else if (!before) diagnostics.push(report('sign-misplaced', span, { sign, why: 'no-bar-before' }));
    else if (before.jump) diagnostics.push(report('signs-together', span, { signs: [before.jump, sign] }));
    else {
      before.jump = sign;
      before.signSpans.jump = span;
      if (sign === 'to-coda') beforeCoda = mouth;
    }
  }

  function finish(): void {
    ahead = undefined;
    bars.push(bar);
    bar = emptyBar();
    started = false;
  }
}

/** What a bar that is repeated has of itself. */
const isTimed = ({ kind }: Flowing): boolean =>
  ['note', 'rest', 'hold', 'unreadable', 'glide', 'again', 'rest-bars'].includes(kind);

const isEmpty = (bar: DraftBar): boolean => bar.events.length === 0 && !bar.unsure;
