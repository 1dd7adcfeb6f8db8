/** A block as data: what `show --json` prints. Times are exact fractions of a whole note, written `3/8`. */
import type { Block, Lesson } from '../../course/course.ts';
import { type Chord, type NoChord, plainChord } from '../../harmony/chord.ts';
import { plainKey } from '../../harmony/key.ts';
import { harpName } from '../../instrument/harp.ts';
import { plainPitch } from '../../instrument/pitch.ts';
import { quotationName } from '../../notation/quotation/quotation.ts';
import { markText } from '../../score/mark.ts';
import { chordAt, roleIn } from '../../score/queries.ts';
import type { Bar, Event } from '../../score/score.ts';
import { feelName } from '../../time/feel.ts';
import { format } from '../../time/fraction.ts';
import { meterName } from '../../time/meter.ts';

/** `score` is null for a block with an error. */
export function blockAsData(lesson: Lesson, { id, index, score }: Block): object {
  const place = { lesson: lesson.id, block: id, index };
  if (!score) return { ...place, score: null };
  return {
    ...place,
    score: {
      title: score.title ?? null,
      harp: harpName(score.harp),
      tuning: score.harp.tuning.id,
      position: score.position,
      key: plainKey(score.key),
      meter: meterName(score.meter),
      tempo: score.tempo,
      feel: feelName(score.feel),
      slot: format(score.slot),
      pickup: score.pickup ? format(score.pickup) : null,
      form: score.progression?.form ?? null,
      bars: score.bars.map((bar) => barAsData(bar)),
    },
  };
}

const barAsData = (bar: Bar): object => ({
  number: bar.number,
  length: format(bar.length),
  part: bar.part ?? null,
  text: bar.direction ?? null,
  position: bar.position,
  key: plainKey(bar.key),
  meter: meterName(bar.meter),
  tempo: bar.tempo ?? null,
  feel: feelName(bar.feel),
  slot: format(bar.slot),
  repeatStart: bar.repeatStart,
  repeatEnd: bar.repeatEnd,
  times: bar.times ?? null,
  endings: bar.endings ?? null,
  target: bar.target ?? null,
  jump: bar.jump ?? null,
  restBars: bar.restBars ?? null,
  repeatsLast: bar.repeatsLast ?? false,
  close: bar.close ?? null,
  chords: bar.chords.map(({ onset, chord }) => ({ onset: format(onset), ...chordAsData(chord) })),
  events: bar.events.map((event) => eventAsData(bar, event)),
});

const chordAsData = (chord: Chord | NoChord): object => ({
  chord: plainChord(chord),
  numeral: (chord === 'none' ? undefined : chord.numeral) ?? null,
});

function eventAsData(bar: Bar, event: Event): object {
  const time = { index: event.index, kind: event.kind, onset: format(event.onset), duration: format(event.duration) };
  if (event.kind === 'rest') return time;
  const chord = chordAt(bar, event.onset);
  return {
    ...time,
    breath: event.breath,
    chord: chord ? plainChord(chord) : null,
    notes: event.notes.map((note) => ({
      hole: note.hole,
      bend: note.bend,
      over: note.over,
      slide: note.slide,
      pitch: plainPitch(note.pitch),
      midi: note.pitch.midi,
      role: roleIn(bar, event, note)?.label ?? null,
    })),
    tied: event.tied,
    glides: event.glides,
    embouchure: event.mouth,
    marks: event.marks.map(markText),
    lyric: event.lyrics?.[0]?.text ?? null,
    lyrics: (event.lyrics ?? []).map(({ verse, text }) => ({ verse, text })),
    syllable: event.syllable?.text ?? null,
    quoted: event.source.quote ? quotationName(event.source.quote) : null,
  };
}
