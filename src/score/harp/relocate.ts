/**
 * The same music on a harp of another tuning. Where the tuning stays, holes stay (move.ts); here the tune stays, and the holes that
 * play it are found by least effort. What such a harp has not got is played by the nearest note that it has.
 */
import { spell } from '../../harmony/role.ts';
import { sounding } from '../../instrument/bend.ts';
import {
  canSound,
  easiestHoles,
  easiestOrStruck,
  type HeldHoles,
  type WantedSound,
} from '../../instrument/easiest-holes.ts';
import { type Harp, holeCount, keyNote } from '../../instrument/harp.ts';
import { nearestPlayable } from '../../instrument/nearest-playable.ts';
import type { Pitch } from '../../instrument/pitch.ts';
import { areSideBySide } from '../../instrument/split.ts';
import { itemAt, present } from '../../values/checked.ts';
import { graceAmong, graceLeadsInto, type Mark } from '../mark.ts';
import { chordAt, isSoundEvent } from '../queries.ts';
import type { Bar, Event, Note, Score, Sound } from '../score.ts';
import { keysMoved } from './move.ts';

/** Notes that the other harp cannot play, and what is in their place. */
export interface Replaced {
  /** As the score counts. */
  readonly bar: number;
  /** What the music asks for, on the key of the other harp; from the lowest. */
  readonly wanted: readonly Pitch[];
  /** What is played instead. */
  readonly given: readonly Pitch[];
}

/** Music on another harp. */
export interface Relocated {
  readonly score: Score;
  /** In the order of the music; a note that is tied on is in it once. */
  readonly replaced: readonly Replaced[];
}

/** One breath of the music: a sound with those tied to it, or the grace note before it. */
interface Breathed {
  readonly wanted: WantedSound;
  /** The pitches that can be played, or the nearest ones. */
  readonly playable: readonly number[];
}

/** Moves a score to a harp of another tuning. The key follows the harp as it does where the tuning stays. */
export function relocate(score: Score, harp: Harp): Relocated {
  const shift = keyNote(harp) - keyNote(score.harp);
  const moved = keysMoved(score, harp);
  const sounds = moved.bars.flatMap(({ events }) => events.filter(isSoundEvent));
  const known = new Map<string, readonly number[]>();
  const breaths = sounds.flatMap((sound) => (sound.tied ? [] : breathsOf(sound)));
  const held = holesFor(harp, breaths);
  const replaced: Replaced[] = [];

  /** Of the sound that was met last, for those tied to it. */
  let last: HeldHoles | undefined;
  let next = 0;
  const bars = moved.bars.map((bar): Bar => {
    const events = bar.events.map((event): Event => {
      if (!isSoundEvent(event)) return event;
      let grace: HeldHoles | undefined;
      if (!event.tied) {
        if (graceAmong(event.marks)) grace = itemAt(held, next++);
        const { wanted, playable } = itemAt(breaths, next);
        last = itemAt(held, next++);
        if (!samePitches(wanted.pitches, playable))
          replaced.push({ bar: bar.number, ...named(wanted.pitches, playable, bar, event) });
      }
      return placed(event, present(last, 'the sound a tie goes on from'), grace, bar, harp);
    });
    return { ...bar, keyNamed: true, events };
  });
  // The mode is that of the tune, whatever the other tuning is made for.
  return { score: { ...moved, keyNamed: true, bars: withGlides(bars) }, replaced };

  function breathsOf(sound: Sound): Breathed[] {
    const { marks, notes, glides } = sound;
    const own = breathed(
      notes.map(({ pitch }) => pitch.midi + shift),
      glides,
      areSideBySide(notes),
    );
    const grace = graceAmong(marks);
    const small = grace && sounding(score.harp, grace.breath, grace);
    return grace && small && 'midi' in small
      ? [breathed([small.midi + shift], graceLeadsInto(grace, sound), true), own]
      : [own];
  }

  /** What can be played is asked once for the same pitches: a tune has few that differ. */
  function breathed(pitches: readonly number[], glides: boolean, sideBySide: boolean): Breathed {
    const wanted = { pitches, glides, sideBySide };
    const name = `${pitches.join()} ${sideBySide}`;
    const playable = known.get(name) ?? playableOf(wanted, harp);
    known.set(name, playable);
    return { wanted, playable };
  }
}

/** Of several at once the most that one breath gives, with the highest among them, which is the tune; alone, the nearest that there is. */
function playableOf({ pitches, sideBySide }: WantedSound, harp: Harp): readonly number[] {
  const plays = (some: readonly number[]): boolean => canSound(harp, { pitches: some, glides: false, sideBySide });
  if (plays(pitches)) return pitches;
  const highest = Math.max(...pitches);
  const others = pitches.filter((midi) => midi !== highest);
  // Of four notes there are eight ways to leave some out, tried from the fullest to the barest.
  const choices = Array.from({ length: 2 ** others.length }, (_, bits) =>
    others.filter((_, index) => bits & (1 << index)),
  );
  const found = choices.toSorted((a, b) => b.length - a.length).find((some) => plays([...some, highest]));
  return found
    ? pitches.filter((midi) => midi === highest || found.includes(midi))
    : [nearestPlayable(harp, highest).midi];
}

/** A breath for each; glides are left out where no way to play the whole keeps them. */
function holesFor(harp: Harp, breaths: readonly Breathed[]): readonly HeldHoles[] {
  const sounds = breaths.map(({ wanted, playable }) => ({ ...wanted, pitches: playable }));
  const kept = sounds.map((sound, index) => {
    const pair = sounds.slice(index, index + 2);
    return { ...sound, glides: sound.glides && pair.length === 2 && easiestHoles(harp, pair) !== undefined };
  });
  const way = easiestOrStruck(harp, kept);
  return present(way, 'a way to play notes that the harp has').sounds;
}

const samePitches = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((midi, index) => midi === b[index]);

function named(wanted: readonly number[], given: readonly number[], bar: Bar, { onset }: Sound): Omit<Replaced, 'bar'> {
  const nameOf = (midi: number): Pitch => spell(midi, chordAt(bar, onset), bar.key);
  return { wanted: wanted.map(nameOf), given: given.map(nameOf) };
}

function placed(sound: Sound, held: HeldHoles, grace: HeldHoles | undefined, bar: Bar, harp: Harp): Sound {
  const chord = chordAt(bar, sound.onset);
  const notes = held.notes
    .map(({ hole, bend, over, slide }): Note => {
      const found = sounding(harp, held.breath, { hole, bend, over, slide });
      if ('fault' in found) throw new RangeError(`${found.fault} at hole ${hole}`);
      return { hole, bend, over, slide, pitch: spell(found.midi, chord, bar.key) };
    })
    .toSorted((a, b) => a.hole - b.hole);
  const by = itemAt(notes, 0).hole - itemAt(sound.notes, 0).hole;
  const marks = sound.marks.flatMap((mark): Mark[] => {
    if ('hole' in mark) {
      // A shake keeps the distance to its other hole, where that is on the harp.
      const hole = mark.hole + by;
      return hole >= 1 && hole <= holeCount(harp) ? [{ ...mark, hole }] : [];
    }
    if (!('note' in mark)) return [mark];
    if (!grace) return [];
    const { hole, bend, over, slide } = itemAt(grace.notes, 0);
    return [{ ...mark, note: { breath: grace.breath, hole, bend, over, slide } }];
  });
  // Holes apart are what the tongue is for.
  return { ...sound, breath: held.breath, notes, marks, mouth: areSideBySide(notes) ? sound.mouth : 'tongue' };
}

/** A glide needs the same breath on both sides of it. */
function withGlides(bars: readonly Bar[]): readonly Bar[] {
  const sounds = bars.flatMap(({ events }) => events);
  return bars.map((bar) => ({
    ...bar,
    events: bar.events.map((event): Event => {
      if (!isSoundEvent(event) || !event.glides) return event;
      const after = sounds[event.index + 1];
      return after && isSoundEvent(after) && after.breath === event.breath ? event : { ...event, glides: false };
    }),
  }));
}
