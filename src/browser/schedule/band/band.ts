/** The band's part of a round: drums, bass and chords from the block's form, feel and meter. */
import type { Playback, PlayedChord } from '../../../score/playback.ts';
import type { BassCue, ChordCue, Cue, HitCue, Piece } from '../cue.ts';
import { beatTicks } from '../grid.ts';
import type { Measure, Round } from '../round.ts';
import type { PlaySettings } from '../settings.ts';
import { chance } from './chance.ts';
import { type BeatKind, beatKinds, type DrumPattern, STYLES, type Style, styleOf } from './style.ts';
import { bassRoot, octaveNear, tonesOf, voicing } from './voicing.ts';

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
  /** What ends with this bar and goes on in another: a phrase of four bars, or the chorus. */
  readonly ends: 'phrase' | 'chorus' | undefined;
  /** The first bar after a chorus. */
  readonly opens: boolean;
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
    const place = ordinal % chorus;
    if (!pickup) counted++;
    const following = round.measures[index + 1] ?? (settings.loop ? round.measures[0] : undefined);
    const first = playback.bars[measure.bar]?.chords[0];
    held = first && nameOf(first) === before ? held + 1 : 0;
    const spans = spansOf(playback, measure, following, held);
    const last = spans.at(-1);
    before = last && nameOf(last.chord);
    // The rest of a bar is no full bar.
    if (last && last.from > 0) held = -1;
    const bar: BandBar = {
      measure,
      style,
      kinds,
      chorus: Math.floor(ordinal / chorus),
      ends: !following ? undefined : place === chorus - 1 ? 'chorus' : place % 4 === 3 ? 'phrase' : undefined,
      opens: place === 0 && ordinal > 0,
      random: chance(settings.seed, ordinal),
      time: (beat, part, parts) => {
        const tick = measure.grid.beat(beat, part, parts);
        if (tick < 0 || tick >= measure.grid.length) return undefined;
        return measure.at + tick * round.secondsPerTick;
      },
      chordAt: (beat, part, parts) => {
        // Thirds of a beat are no exact numbers, and a chord that comes with one must not come after it.
        const from = beat + part / parts + 1e-9;
        return spans.find((span) => span.from <= from && from < span.to);
      },
      spans,
      end: measure.at + measure.seconds,
    };
    cues.push(...drumsOf(bar), ...bassOf(bar), ...chordsOf(bar));
  }
  return walked(cues);
}

/** Lays each note of the bass in the octave that its way from the note before asks for. */
function walked(cues: readonly Cue[]): Cue[] {
  let before: number | undefined;
  return cues.map((cue): Cue => {
    if (cue.kind !== 'bass') return cue;
    before = before === undefined ? cue.midi : octaveNear(cue.midi, before);
    return { ...cue, midi: before };
  });
}

const isPickup = (playback: Playback, measure: Measure): boolean => (playback.bars[measure.bar]?.lead ?? 0) > 0;
const nameOf = ({ root, suffix }: PlayedChord): string => `${root.letter}${root.alter}${suffix}`;

function spansOf(playback: Playback, measure: Measure, following: Measure | undefined, held: number): Span[] {
  const bar = playback.bars[measure.bar];
  if (!bar) return [];
  const beat = beatTicks(playback);
  const lead = bar.lead ?? 0;
  const first = following && playback.bars[following.bar]?.chords.find(({ at }) => at === 0);
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

/** How often an ornament is played, and how loud a stroke of kick or snare may be to be one. */
const ORNAMENTS = { share: 0.6, loudest: 6 };

function drumsOf(bar: BandBar): HitCue[] {
  const { style, chorus, ends, opens, random, kinds } = bar;
  const pattern = pick(style.drums, chorus);
  const ways = ends === 'chorus' ? style.fills : ends === 'phrase' ? style.turns : [];
  const fill = ways[Math.floor(random() * ways.length)];
  const hits: HitCue[] = [];
  for (const piece of PIECES) {
    const cells = pattern[piece];
    if (!cells) continue;
    const fills = (beat: number): boolean => piece === 'snare' && fill !== undefined && beat === kinds.length - 1;
    for (const { letter, at, beat, part } of letters(bar, (kind, beat) => (fills(beat) ? (fill ?? '') : cells[kind]))) {
      if (letter === '.') continue;
      const drum = piece === 'kick' || piece === 'snare';
      const ornament = drum && part > 0 && Number(letter) <= ORNAMENTS.loudest && !fills(beat);
      if (ornament && random() > ORNAMENTS.share) continue;
      // The hand that keeps time strikes the cymbal instead.
      if (opens && !drum && piece !== 'stick' && beat === 0 && part === 0) continue;
      hits.push({ kind: 'hit', at, piece, level: uneven(Number(letter) / 9, random) });
    }
  }
  const start = bar.time(0, 0, 1);
  if (opens && start !== undefined) hits.push({ kind: 'hit', at: start, piece: 'ride', level: 1 });
  return hits;
}

const pick = <Item>(items: readonly Item[], turn: number): Item => items[turn % items.length] as Item;

const changes = ({ chord, next }: Span): boolean => next !== undefined && nameOf(next) !== nameOf(chord);

function bassOf(bar: BandBar): BassCue[] {
  const pattern = pick(bar.style.bass, bar.chorus);
  const notes: { at: number; midi: number; level: number; until: number }[] = [];
  for (const span of bar.spans) {
    const place = (beat: number): number => Math.floor(beat - span.from) + (span.held % 2) * bar.kinds.length;
    const leads = (beat: number): boolean => changes(span) && beat > span.from && beat + 1 >= span.to;
    const cell = (_kind: BeatKind, beat: number): string => {
      if (beat + 1 <= span.from || beat >= span.to) return '';
      return leads(beat) ? pattern.lead : pick(pattern.cells, Math.max(0, place(beat)));
    };
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
    case 'a':
      return next ? bassRoot(next) + (random() < 0.5 ? 1 : -1) : root + fifth;
    default:
      return root;
  }
}

function chordsOf(bar: BandBar): ChordCue[] {
  // The fourth bar of a phrase answers the three before it.
  const pattern = pick(bar.style.chords, bar.chorus + (bar.ends === 'phrase' ? 1 : 0));
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
