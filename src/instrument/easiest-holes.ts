/** Which holes play given pitches with the least effort: for music that is moved to other pitches on the same harp. */
import { itemAt } from '../values/checked.ts';
import type { Breath, Harp, HoleNote } from './harp.ts';
import { meansOf, notesOf, type Playable, quarterStepsOf } from './playable.ts';
import { WIDEST_SPLIT } from './split.ts';

/** What is to sound on one breath. */
export interface WantedSound {
  /** MIDI numbers; several sound together. */
  readonly pitches: readonly number[];
  /** Whether it glides into the next sound, which is then on the same breath. */
  readonly glides: boolean;
  /** Whether several holes are side by side, as lips play them; else the tongue covers holes between them. */
  readonly sideBySide: boolean;
}

/** Holes on one breath. */
export interface HeldHoles {
  readonly breath: Breath;
  /** One for each pitch wanted, in that order. */
  readonly notes: readonly HoleNote[];
}

/** A way to play some sounds one after another. */
export interface EasiestHoles {
  readonly sounds: readonly HeldHoles[];
  /** See {@link effortOf} and {@link effortBetween}. */
  readonly effort: number;
  /** Whether an overbend is needed. */
  readonly overbends: boolean;
}

/**
 * The effort of one note: nothing on a plain reed, more for the slide, and more for a bend the deeper it is. The weights are ours: they
 * put the ways to play a note in the order in which a student learns them.
 */
export function effortOf(note: HoleNote): number {
  switch (meansOf(note)) {
    case 'reed':
      return 0;
    case 'slide':
      return 1;
    case 'bend':
      // A quarter step takes the control of the half step after it.
      return 2 + 2 * Math.ceil(note.bend);
    case 'overbend':
      return 20;
  }
}

/** The effort from one sound to the next: a hole that is next to the last one costs 1 as a change of breath does, each further one 1 more. */
export const effortBetween = (from: HeldHoles, to: HeldHoles): number =>
  (from.breath === to.breath ? 0 : 1) + Math.abs(lowestOf(from) - lowestOf(to));

const lowestOf = ({ notes }: HeldHoles): number => Math.min(...notes.map(({ hole }) => hole));

/** The easiest way to play some sounds in order; undefined where a sound cannot be played at all, or no way keeps the glides. */
export function easiestHoles(harp: Harp, wanted: readonly WantedSound[]): EasiestHoles | undefined {
  if (wanted.length === 0) return { sounds: [], effort: 0, overbends: false };
  const all = [...notesOf(harp), ...quarterStepsOf(harp)];
  interface Step {
    readonly held: HeldHoles;
    readonly effort: number;
    readonly before: Step | undefined;
  }
  let steps: readonly Step[] = [];
  for (const [index, sound] of wanted.entries()) {
    const glided = index > 0 && itemAt(wanted, index - 1).glides;
    const next: Step[] = [];
    for (const held of waysToHold(all, sound)) {
      const own = held.notes.reduce((sum, note) => sum + effortOf(note), 0);
      if (index === 0) next.push({ held, effort: own, before: undefined });
      let best: Step | undefined;
      for (const before of steps) {
        if (glided && before.held.breath !== held.breath) continue;
        const effort = before.effort + own + effortBetween(before.held, held);
        if (!best || effort < best.effort) best = { held, effort, before };
      }
      if (best) next.push(best);
    }
    steps = next;
  }
  let last = steps.reduce<Step | undefined>(
    (least, step) => (!least || step.effort < least.effort ? step : least),
    undefined,
  );
  if (!last) return undefined;
  const { effort } = last;
  const sounds: HeldHoles[] = [];
  for (; last; last = last.before) sounds.push(last.held);
  sounds.reverse();
  return { sounds, effort, overbends: sounds.some(({ notes }) => notes.some(({ over }) => over)) };
}

/** The same where no glide is asked for. */
const struck = (sound: WantedSound): WantedSound => ({ ...sound, glides: false });

/** The easiest way to play some sounds; where their glides would turn the breath, all are struck instead. Undefined where one cannot be played. */
export const easiestOrStruck = (harp: Harp, wanted: readonly WantedSound[]): EasiestHoles | undefined =>
  easiestHoles(harp, wanted) ?? easiestHoles(harp, wanted.map(struck));

/** Whether a sound can be played by itself. */
export const canSound = (harp: Harp, sound: WantedSound): boolean => easiestHoles(harp, [struck(sound)]) !== undefined;

/** The holes that give the pitches of a sound on one breath. Several at once are plain reeds: a bend takes a mouth shaped for one. */
function waysToHold(all: readonly Playable[], { pitches, sideBySide }: WantedSound): HeldHoles[] {
  if (pitches.length === 1)
    return all.filter(({ midi }) => midi === pitches[0]).map((note) => ({ breath: note.breath, notes: [note] }));
  if (pitches.length > WIDEST_SPLIT) return [];
  const ways: HeldHoles[] = [];
  for (const breath of ['blow', 'draw'] as const)
    for (const slide of [false, true]) {
      const reeds = all.filter(
        (note) => note.breath === breath && note.slide === slide && !note.over && note.bend === 0,
      );
      // The same pitch may be on two holes.
      const choices = pitches.map((pitch) => reeds.filter(({ midi }) => midi === pitch));
      for (const notes of combinations(choices)) if (fitMouth(notes, sideBySide)) ways.push({ breath, notes });
    }
  return ways;
}

function fitMouth(notes: readonly HoleNote[], sideBySide: boolean): boolean {
  const holes = notes.map(({ hole }) => hole);
  const reach = Math.max(...holes) - Math.min(...holes);
  if (new Set(holes).size < holes.length || reach >= WIDEST_SPLIT) return false;
  return !sideBySide || reach === holes.length - 1;
}

const combinations = <T>(choices: readonly (readonly T[])[]): T[][] =>
  choices.reduce<T[][]>((ways, choice) => ways.flatMap((way) => choice.map((one) => [...way, one])), [[]]);
