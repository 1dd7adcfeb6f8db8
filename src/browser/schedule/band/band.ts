/** The band's part of a round: drums, bass and chords from the block's form, feel and meter. */
import type { Playback, PlayedChord } from '../../../score/playback.ts';
import type { BassCue, ChordCue, Cue, HitCue, Piece } from '../cue.ts';
import { beatTicks } from '../grid.ts';
import type { Measure, Round } from '../round.ts';
import type { PlaySettings } from '../settings.ts';
import { chance } from './chance.ts';
import { type BeatKind, beatKinds, type DrumPattern, STYLES, type Style, styleOf } from './style.ts';
import { bassRoot, tonesOf, voicing } from './voicing.ts';

/** The variations change with the form, but not oftener than a short chorus would: over a vamp, or without a form. */
const SHORTEST_CHORUS = 8;
const chorusOf = ({ form }: Playback): number =>
  form > 0 ? form * Math.ceil(SHORTEST_CHORUS / form) : SHORTEST_CHORUS;

/** One bar as the band sees it. */
interface BandBar {
  readonly measure: Measure;
  readonly style: Style;
  readonly kinds: readonly BeatKind[];
  /** Which variation of each pattern this chorus takes. */
  readonly chorus: number;
  readonly lastOfChorus: boolean;
  readonly random: () => number;
  /** Seconds from the round's start of a part of a beat; undefined where a short bar has no such place. */
  readonly time: (beat: number, part: number, parts: number) => number | undefined;
  readonly chordAt: (beat: number, part: number, parts: number) => Span | undefined;
  readonly spans: readonly Span[];
  readonly end: number;
}

/** A chord's stretch of a bar. */
interface Span {
  readonly chord: PlayedChord;
  /** Beats from the bar's start, perhaps with a part, at which it comes in and ends. */
  readonly from: number;
  readonly to: number;
  readonly next: PlayedChord | undefined;
  /** Full bars this chord had already lasted when the bar began. */
  readonly held: number;
}

export function bandOf(playback: Playback, settings: PlaySettings, round: Round): Cue[] {
  const style = STYLES[styleOf(playback.meter, settings.swing)];
  const kinds = beatKinds(playback.meter);
  const full = round.measures.filter((measure) => !isPickup(playback, measure)).length;
  const chorus = chorusOf(playback);
  const cues: Cue[] = [];
  let counted = 0;
  let held = 0;
  let before: string | undefined;
  for (const [index, measure] of round.measures.entries()) {
    const pickup = isPickup(playback, measure);
    // Nobody plays under the first pickup; later ones finish the bar the round before left short.
    if (pickup && round.number === 0) continue;
    const ordinal = round.number * full + counted;
    if (!pickup) counted++;
    const following = round.measures[(index + 1) % round.measures.length];
    const spans = spansOf(playback, measure, following, held);
    const last = spans.at(-1);
    held = last && last.from === 0 && nameOf(last.chord) === before ? held + 1 : 0;
    before = last && nameOf(last.chord);
    const bar: BandBar = {
      measure,
      style,
      kinds,
      chorus: Math.floor(ordinal / chorus),
      lastOfChorus: ordinal % chorus === chorus - 1,
      random: chance(settings.seed, ordinal),
      time: (beat, part, parts) => {
        const place = measure.grid.beat(beat, part, parts);
        if (place < 0 || place >= measure.grid.length) return undefined;
        return measure.at + place * round.secondsPerTick;
      },
      chordAt: (beat, part, parts) => {
        const place = beat + part / parts;
        return spans.find((span) => span.from <= place && place < span.to);
      },
      spans,
      end: measure.at + measure.seconds,
    };
    cues.push(...drumsOf(bar), ...bassOf(bar), ...chordsOf(bar));
  }
  return cues;
}

const isPickup = (playback: Playback, measure: Measure): boolean => (playback.bars[measure.bar]?.lead ?? 0) > 0;
const nameOf = ({ root, suffix }: PlayedChord): string => `${root.letter}${root.alter}${suffix}`;

function spansOf(playback: Playback, measure: Measure, following: Measure | undefined, held: number): Span[] {
  const bar = playback.bars[measure.bar];
  if (!bar) return [];
  const beat = beatTicks(playback);
  const lead = bar.lead ?? 0;
  const first = following && playback.bars[following.bar]?.chords[0];
  return bar.chords.map(({ at }, index): Span => {
    const chord = bar.chords[index] as PlayedChord;
    const next = bar.chords[index + 1];
    return {
      chord,
      from: index === 0 && at === 0 ? 0 : (lead + at) / beat,
      to: (lead + (next ? next.at : bar.length)) / beat,
      next: next ?? first,
      held: index === 0 ? held : 0,
    };
  });
}

/** Every letter of a bar's cells with its place. */
function* letters(bar: BandBar, cell: (kind: BeatKind, beat: number) => string) {
  for (const [beat, kind] of bar.kinds.entries()) {
    const parts = cell(kind, beat);
    for (const [part, letter] of [...parts].entries()) {
      const at = bar.time(beat, part, parts.length);
      if (at !== undefined) yield { letter, at, beat, part, parts: parts.length };
    }
  }
}

/** No two strokes of a player are equally loud. */
const uneven = (level: number, random: () => number): number => level * (0.88 + 0.12 * random());

const PIECES: readonly (keyof DrumPattern & Piece)[] = ['kick', 'snare', 'stick', 'hat', 'ride'];

function drumsOf(bar: BandBar): HitCue[] {
  const { style, chorus, lastOfChorus, random, kinds } = bar;
  const pattern = pick(style.drums, chorus);
  const fill = lastOfChorus ? style.fills[Math.floor(random() * style.fills.length)] : undefined;
  const filled = fill === undefined ? -1 : kinds.length - 1;
  const hits: HitCue[] = [];
  for (const piece of PIECES) {
    const cells = pattern[piece];
    if (!cells) continue;
    const hasFill = piece === 'snare';
    for (const { letter, at } of letters(bar, (kind, beat) =>
      hasFill && beat === filled ? (fill ?? '') : cells[kind],
    )) {
      if (letter !== '.') hits.push({ kind: 'hit', at, piece, level: uneven(Number(letter) / 9, random) });
    }
  }
  return hits;
}

const pick = <Item>(items: readonly Item[], turn: number): Item => items[turn % items.length] as Item;

function bassOf(bar: BandBar): BassCue[] {
  const pattern = pick(bar.style.bass, bar.chorus);
  const notes: { at: number; midi: number; level: number; until: number }[] = [];
  for (const span of bar.spans) {
    const place = (beat: number): number => Math.floor(beat - span.from) + (span.held % 2) * bar.kinds.length;
    const cell = (_kind: BeatKind, beat: number): string =>
      beat + 1 <= span.from || beat >= span.to ? '' : pick(pattern, Math.max(0, place(beat)));
    const end = bar.time(Math.floor(span.to), span.to % 1, 1) ?? bar.end;
    let started = false;
    for (const { letter, at, beat, part, parts } of letters(bar, cell)) {
      if (bar.chordAt(beat, part, parts) !== span) continue;
      if (letter === '.' && started) continue;
      const midi = bassNote(started ? letter : 'R', span, bar.random);
      // A chord that comes in does so on its root; one that goes on from the bar before need not.
      const entered = !started && span.held > 0 && letter !== '.' ? bassNote(letter, span, bar.random) : midi;
      const before = notes.at(-1);
      if (before) before.until = Math.min(before.until, at);
      notes.push({ at, midi: entered, level: uneven(part === 0 ? 0.9 : 0.65, bar.random), until: end });
      started = true;
    }
  }
  return notes.map(({ at, midi, level, until }) => ({ kind: 'bass', at, seconds: until - at, midi, level }));
}

function bassNote(letter: string, { chord, next }: Span, random: () => number): number {
  const root = bassRoot(chord);
  const { third, fifth, sixth, seventh } = tonesOf(chord);
  switch (letter) {
    case '3':
      return root + third;
    case '5':
      return root + fifth;
    case '6':
      return root + sixth;
    case '7':
      return root + seventh;
    case '8':
      return root + 12;
    case 'a': {
      if (!next || nameOf(next) === nameOf(chord)) return root + fifth;
      return bassRoot(next) + (random() < 0.5 ? 1 : -1);
    }
    default:
      return root;
  }
}

function chordsOf(bar: BandBar): ChordCue[] {
  const pattern = pick(bar.style.chords, bar.chorus);
  const cues: ChordCue[] = [];
  let holding = false;
  for (const span of bar.spans) {
    const start = bar.time(Math.floor(span.from), span.from % 1, 1);
    const end = bar.time(Math.floor(span.to), span.to % 1, 1) ?? bar.end;
    const midis = voicing(span.chord);
    const inSpan = [...letters(bar, (kind) => pattern[kind])].filter(
      ({ letter, beat, part, parts }) => letter !== '.' && bar.chordAt(beat, part, parts) === span,
    );
    // A change of chord that falls between two strokes is played when it comes.
    const strokes = inSpan.map(({ letter, at }) => ({ letter, at }));
    if (start !== undefined && strokes[0]?.at !== start && (holding || strokes.length === 0)) {
      strokes.unshift({ letter: holding ? 'p' : 's', at: start });
    }
    for (const [index, { letter, at }] of strokes.entries()) {
      holding = letter === 'p';
      if (letter === '-') continue;
      const until = strokes[index + 1]?.at ?? end;
      const touch = holding ? 'pad' : 'stab';
      const seconds = holding ? until - at : Math.min(0.16, until - at);
      cues.push({ kind: 'chord', at, seconds, midis, level: uneven(holding ? 0.5 : 0.8, bar.random), touch });
    }
  }
  return cues;
}
