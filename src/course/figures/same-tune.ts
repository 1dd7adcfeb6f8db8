/** The same tune on another harp or in another key: its holes are found with the least effort, and what cannot be played is named. */
import { spellInKey } from '../../harmony/key.ts';
import { canSound, easiestOrStruck, type HeldHoles, type WantedSound } from '../../instrument/easiest-holes.ts';
import type { Harp } from '../../instrument/harp.ts';
import { areSideBySide } from '../../instrument/split.ts';
import { isSoundEvent, soundsOf } from '../../score/queries.ts';
import type { Event, Score, Sound } from '../../score/score.ts';
import { itemAt } from '../../values/checked.ts';

/** A tune as a harp plays it. */
export interface TuneOnHarp {
  /** Half steps from the pitches as they are written. */
  readonly shift: number;
  /** By the index of the event, what is tied to it included; nothing for what cannot be played there. */
  readonly held: ReadonlyMap<number, HeldHoles>;
  /** The tune with these holes, and rests in place of what cannot be played. Marks that name holes or notes are left out. */
  readonly score: Score;
}

/**
 * The tune on a harp. `shifts` are the distances, in half steps, at which it may sound, the preferred ones first. The one is taken at which
 * the fewest notes are missing, then one without overbends, then one less than an octave away, then the easiest.
 */
export function tuneOnHarp(score: Score, harp: Harp, shifts: readonly number[]): TuneOnHarp {
  const sounds = soundsOf(score).filter(({ tied }) => !tied);
  const ways = shifts.map((shift) => ({ shift, ...wayAt(sounds, harp, shift) }));
  const best = ways.reduce((least, way) => (isBetter(way, least) ? way : least));
  const held = new Map<number, HeldHoles>();
  let index = 0;
  let current: HeldHoles | undefined;
  for (const sound of soundsOf(score)) {
    if (!sound.tied) current = best.held[index++];
    if (current) held.set(sound.index, current);
  }
  return { shift: best.shift, held, score: withHoles(score, harp, best.shift, held) };
}

/** The tune as it is written, in the same form. */
export function tuneAsWritten(score: Score): TuneOnHarp {
  const held = new Map(
    soundsOf(score).map(({ index, breath, notes }): [number, HeldHoles] => [
      index,
      { breath, notes: notes.map(({ hole, bend, over, slide }) => ({ hole, bend, over, slide })) },
    ]),
  );
  return { shift: 0, held, score: withHoles(score, score.harp, 0, held) };
}

interface Way {
  readonly shift: number;
  readonly held: readonly (HeldHoles | undefined)[];
  readonly missing: number;
  readonly overbends: boolean;
  readonly effort: number;
}

const isBetter = (a: Way, b: Way): boolean => {
  if (a.missing !== b.missing) return a.missing < b.missing;
  if (a.overbends !== b.overbends) return !a.overbends;
  const [farA, farB] = [a, b].map(({ shift }) => Math.abs(shift) >= 12);
  return farA === farB ? a.effort < b.effort : !farA;
};

/** The easiest holes for every run of sounds that can be played. */
function wayAt(sounds: readonly Sound[], harp: Harp, shift: number): Omit<Way, 'shift'> {
  const wanted = sounds.map(
    (sound): WantedSound => ({
      pitches: sound.notes.map(({ pitch }) => pitch.midi + shift),
      glides: sound.glides,
      sideBySide: areSideBySide(sound.notes),
    }),
  );
  const held: (HeldHoles | undefined)[] = [];
  let [missing, overbends, effort] = [0, false, 0];
  let run: WantedSound[] = [];
  const endRun = (): void => {
    const found = easiestOrStruck(harp, run);
    held.push(...(found?.sounds ?? []));
    overbends ||= found?.overbends ?? false;
    effort += found?.effort ?? 0;
    run = [];
  };
  for (const sound of wanted) {
    if (canSound(harp, sound)) {
      run.push(sound);
      continue;
    }
    endRun();
    held.push(undefined);
    missing++;
  }
  endRun();
  return { held, missing, overbends, effort };
}

function withHoles(score: Score, harp: Harp, shift: number, held: TuneOnHarp['held']): Score {
  const sounds = soundsOf(score);
  const nextSound = new Map(sounds.map(({ index }, place) => [index, sounds[place + 1]?.index]));
  const bars = score.bars.map((bar) => {
    const events = bar.events.map((event): Event => {
      if (!isSoundEvent(event)) return event;
      const found = held.get(event.index);
      const { index, onset, duration, source } = event;
      if (!found) return { kind: 'rest', index, onset, duration, source };
      const notes = found.notes
        .map((note, place) => ({ ...note, pitch: spellInKey(itemAt(event.notes, place).pitch.midi + shift, bar.key) }))
        .sort((a, b) => a.hole - b.hole);
      const marks = event.marks.filter((mark) => !('hole' in mark) && !('note' in mark));
      return { ...event, breath: found.breath, notes, marks, glides: event.glides && glidesOn(index) };
    });
    return { ...bar, events };
  });
  return { ...score, harp, bars };

  /** A glide stays on one breath, and leads to a note. */
  function glidesOn(index: number): boolean {
    const [from, to] = [held.get(index), held.get(nextSound.get(index) ?? -1)];
    return to !== undefined && from?.breath === to.breath;
  }
}
