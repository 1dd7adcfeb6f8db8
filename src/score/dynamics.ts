/** How loud the sounds of a score are, by its dynamics. */
import { toNumber } from '../time/fraction.ts';
import { throughEndings } from './endings.ts';
import { MARK_NAMES, type MarkName, soundsOfMarks } from './mark.ts';
import { endingOpenedBy } from './queries.ts';
import type { Event, Score } from './score.ts';

/** The loudness of music that names none, mezzo-forte. */
const USUAL_LEVEL = 1;

/** A crescendo or a diminuendo on its way. */
interface Swell {
  readonly from: number;
  /** 1 where it grows, -1 where it fades. */
  readonly steps: number;
  readonly sounds: { readonly event: Event; readonly at: number }[];
}

/**
 * The loudness of each sounding event, as a factor of the usual one; events that are as loud as usual are left out. A dynamic is for
 * all that follows. A crescendo or a diminuendo leads evenly to the next dynamic, or one step further where that one lies in the other
 * direction or there is none.
 */
export function levelsOf({ bars }: Pick<Score, 'bars'>): ReadonlyMap<Event, number> {
  const levels = new Map<Event, number>();
  let level = USUAL_LEVEL;
  const through = throughEndings(level);
  let beforeCoda = level;
  let swell: Swell | undefined;
  let at = 0;
  const arrive = (next: number | undefined, end: number): void => {
    if (!swell) return;
    const { from, steps, sounds } = swell;
    const target = next !== undefined && Math.sign(next - from) === steps ? next : oneStep(from, steps);
    const start = sounds[0]?.at ?? end;
    for (const sound of sounds) set(sound.event, from + ((target - from) * (sound.at - start)) / (end - start || 1));
    level = target;
    swell = undefined;
  };
  const set = (event: Event, own: number): void => {
    if (own !== USUAL_LEVEL) levels.set(event, own);
  };
  for (const bar of bars) {
    const opened = endingOpenedBy({ bars }, bar);
    if (opened) arrive(undefined, at);
    level = through(level, opened);
    // The coda continues from the bar that leaves for it.
    if (bar.target === 'coda') {
      arrive(undefined, at);
      level = beforeCoda;
    }
    for (const event of bar.events) {
      if (event.kind === 'rest') continue;
      const time = at + toNumber(event.onset);
      const names = event.tied ? NONE : event.marks.map(({ name }) => name);
      const own = soundsOfMarks(names, 'level').at(-1);
      const change = soundsOfMarks(names, 'swell').at(-1);
      if (own || change) arrive(own?.level, time);
      if (own) level = own.level;
      if (change) swell = { from: level, steps: change.steps, sounds: [] };
      if (swell) swell.sounds.push({ event, at: time });
      else set(event, level);
    }
    at += toNumber(bar.length);
    if (bar.jump === 'to-coda') beforeCoda = level;
  }
  arrive(undefined, at);
  return levels;
}

const NONE: readonly MarkName[] = [];

/** The next dynamic in a direction, or the level itself where there is none. */
function oneStep(level: number, steps: number): number {
  const further = LEVELS.filter((one) => Math.sign(one - level) === steps);
  if (further.length === 0) return level;
  return steps > 0 ? Math.min(...further) : Math.max(...further);
}

const LEVELS: readonly number[] = soundsOfMarks(MARK_NAMES, 'level').map(({ level }) => level);
