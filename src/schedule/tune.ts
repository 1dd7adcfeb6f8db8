/** The tune of a round as lines: what is tied or glided into sounds on without a new attack. */
import type { Breath } from '../instrument/harp.ts';
import { graceLeadsInto, MARKS, secondsOfBreath, soundsOfMarks } from '../score/mark.ts';
import type { Playback, PlayedEvent, PlayedGrace, PlayedNote } from '../score/playback.ts';
import { lastOf } from '../values/checked.ts';
import type { LineCue, LinePart } from './cue.ts';
import type { Round } from './round.ts';
import type { Layer } from './settings.ts';

/** A note ends a little before the next one, so that repeated notes can be heard apart. */
const GAP_BETWEEN_NOTES = 0.03;
const LONGEST_GAP_SHARE = 0.15;

interface OpenLine {
  /** The index of its first event in the score. */
  readonly event: number;
  readonly at: number;
  readonly breath: Breath;
  readonly parts: LinePart[];
  until: number;
  glides: boolean;
}

type Sounding = PlayedEvent & { readonly notes: readonly PlayedNote[]; readonly breath: Breath };

const sounds = (event: PlayedEvent): event is Sounding => event.notes !== undefined && event.breath !== undefined;

/**
 * The lines of the tune in a round: each is one breath without a new attack. With a layer only those that begin in it, so that what is
 * held or glided into is heard with its attack or not at all.
 */
export function tuneOf(playback: Playback, round: Round, layer?: Layer): LineCue[] {
  const lines: OpenLine[] = [];
  let open: OpenLine | undefined;
  for (const measure of round.measures) {
    const bar = playback.bars[measure.bar];
    if (!bar || measure.answer) {
      open = undefined;
      continue;
    }
    const time = (tick: number): number => measure.at + measure.grid.at(tick);
    for (const event of bar.events) {
      if (!sounds(event)) {
        open = undefined;
        continue;
      }
      const at = time(event.at);
      const until = time(event.at + event.length);
      const grace = event.tied ? undefined : event.grace;
      const crush = grace ? secondsOfGrace(until - at) : 0;
      if (!open || grace || !goesOn(open, event)) {
        const joins = grace && graceLeadsInto(grace, event);
        if (grace && !joins) lines.push({ ...lineOfGrace(grace, at, crush, playback), event: event.index });
        open = {
          event: event.index,
          at: joins ? at : at + crush,
          breath: event.breath,
          parts: [],
          until,
          glides: false,
        };
        if (joins) open.parts.push(partOfGrace(grace, 0, crush, playback));
        lines.push(open);
      }
      const held = event.tied && !open.glides ? open.parts.pop() : undefined;
      // A held note is one note: its vibrato continues over the bar line, and its fall comes at its end.
      open.parts.push(
        held
          ? { ...held, seconds: until - open.at - held.at }
          : partOf(event, at + crush - open.at, until - at - crush, playback),
      );
      open.until = until;
      open.glides = event.glides === true;
    }
  }
  return lines.filter(({ event }) => isHeard(event, playback, layer)).map(closed);
}

function isHeard(event: number, { phrases = [] }: Playback, layer: Layer | undefined): boolean {
  const phrase = layer && phrases[layer.phrase];
  if (!phrase) return true;
  const isInside = phrase.occurrences.some(({ from, to }) => from <= event && event <= to);
  return isInside === (layer.heard === 'alone');
}

/** Seconds of a grace note before a note that has so many with it. */
function secondsOfGrace(seconds: number): number {
  const { seconds: most, part } = MARKS.grace.sound;
  return Math.min(most, seconds * part);
}

const partOfGrace = (grace: PlayedGrace, at: number, seconds: number, { mouth }: Playback): LinePart => ({
  at,
  seconds,
  notes: [grace],
  mouth,
  marks: [],
});

const lineOfGrace = (grace: PlayedGrace, at: number, seconds: number, playback: Playback): Omit<OpenLine, 'event'> => ({
  at,
  breath: grace.breath,
  parts: [partOfGrace(grace, 0, seconds, playback)],
  until: at + seconds,
  glides: false,
});

/** Whether an event continues in the line before it: a glide leads into the next sound, a tie continues with the same holes. */
function goesOn(open: OpenLine, event: Sounding): boolean {
  const before = open.parts.at(-1)?.notes ?? [];
  if (event.breath !== open.breath || event.notes.length !== before.length) return false;
  if (open.glides) return true;
  return event.tied === true && event.notes.every((note, index) => note.midi === before[index]?.midi);
}

function partOf(event: Sounding, at: number, seconds: number, { mouth }: Playback): LinePart {
  const { notes, shake, struck, level, marks = [] } = event;
  return {
    at,
    seconds,
    notes,
    mouth: event.mouth ?? mouth,
    marks,
    ...(level === undefined ? {} : { level }),
    ...(shake === undefined ? {} : { shake }),
    // Only a new attack can slap or pull.
    ...(struck && !event.tied ? { struck } : {}),
  };
}

function closed({ at, breath, parts, until }: OpenLine): LineCue {
  const last = lastOf(parts);
  return { kind: 'line', at, seconds: until - at - gapAfter(last), breath, parts };
}

/** Seconds of silence at the end of a line's last part. A note both held and short sounds for the mean of both lengths. */
function gapAfter({ marks, seconds }: LinePart): number {
  const breath = secondsOfBreath(marks, seconds);
  const lengths = soundsOfMarks(marks, 'shorten').map(({ to }) => to);
  if (lengths.length === 0) return Math.max(breath, Math.min(GAP_BETWEEN_NOTES, seconds * LONGEST_GAP_SHARE));
  const mean = lengths.reduce((sum, to) => sum + to, 0) / lengths.length;
  return Math.max(breath, seconds * (1 - mean));
}
