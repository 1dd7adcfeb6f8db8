/** A course's settings in the words a student reads. */
import { bendingHoles } from '../instrument/bend.ts';
import type { Harp } from '../instrument/harp.ts';
import { printedName } from '../instrument/pitch.ts';
import { positionInWords, positionName } from '../instrument/position.ts';
import { type Tuning, unusualTuning } from '../instrument/tuning.ts';
import type { Score } from '../score/score.ts';
import { temposOf } from '../score/tempo.ts';
import { listInWords } from '../texts/list.ts';
import type { Feel } from '../time/feel.ts';
import { isCompound, type Meter } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { guideText, settingText } from './texts.ts';

/** `low F (solo)`: the usual register and tuning go without saying. */
export function harpInWords({ key, register }: Pick<Harp, 'key' | 'register'>, tuning: Tuning): string {
  const name = printedName(key);
  const harp =
    register === 'standard' ? name : settingText('harpInRegister', { register: settingText(register), key: name });
  const other = unusualTuning(tuning);
  return other === undefined ? harp : settingText('tuned', { harp, tuning: other });
}

/** `second position (cross harp)`. */
export function positionWithName(position: number): string {
  const name = positionName(position);
  const words = positionInWords(position);
  return name === undefined ? words : settingText('namedPosition', { position: words, name });
}

/** What is played: how fast, and how. */
export interface Pace {
  readonly tempo: number;
  readonly meter: Meter;
  readonly feel: Feel;
}

/** The paces of a block, bar by bar. */
export const pacesIn = (score: Score): Pace[] =>
  temposOf(score).flatMap(({ from, to }, index) => {
    const { meter, feel } = itemAt(score.bars, index);
    return [from, to].map((tempo) => ({ tempo: Math.round(tempo * 10) / 10, meter, feel }));
  });

/**
 * The tempo of a lesson, from its blocks’: `♩ = 92, shuffle` where they agree, `♩ = 60 to 92` where they do not, and both
 * kinds of beat where it has both: `♩ = 72, ♩. = 60`. Empty where there is no block. `aloud` is the same for a voice.
 */
export function lessonTempoInWords(paces: readonly Pace[], aloud = false): string {
  const counts = [false, true].flatMap((dotted) => {
    const tempi = paces.filter(({ meter }) => isCompound(meter) === dotted).map(({ tempo }) => tempo);
    if (tempi.length === 0) return [];
    const [least, most] = [Math.min(...tempi), Math.max(...tempi)];
    const range = least === most ? least : settingText('from', { least, most });
    if (aloud) return settingText(dotted ? 'dottedQuartersSaid' : 'quartersSaid', { tempo: range });
    return settingText(dotted ? 'dottedQuarters' : 'quarters', { tempo: range });
  });
  const tempo = counts.join(', ');
  // Where some of it swings and some does not, each block says so itself.
  const inEachFeel = new Set(paces.map(({ feel }) => inFeel(tempo, feel)));
  return inEachFeel.size === 1 ? [...inEachFeel].join() : tempo;
}

function inFeel(tempo: string, { name, long, short }: Feel): string {
  if (name === 'straight') return tempo;
  return name === 'shuffle' ? settingText('shuffled', { tempo }) : settingText('swung', { tempo, long, short });
}

/** `45 minutes`, `1 hour`, `3 hours 20 minutes`. */
export function minutesInWords(total: number): string {
  const hours = settingText('hours', { count: Math.floor(total / 60) });
  const minutes = settingText('minutes', { count: total % 60 });
  if (total < 60) return minutes;
  return total % 60 === 0 ? hours : settingText('hoursAndMinutes', { hours, minutes });
}

/** `PT1H20M`, as schema.org wants a duration. */
export const minutesAsDuration = (minutes: number): string => `PT${minutes}M`;

/** Which holes of a harp bend on which breath, as a sentence. */
export function bendingHolesInWords(harp: Harp): string {
  const tuning = harp.tuning.title;
  const [draw, blow] = (['draw', 'blow'] as const).map((breath) => listInWords(bendingHoles(harp, breath).map(String)));
  if (draw && blow) return guideText('bendOnBoth', { tuning, draw, blow });
  if (draw) return guideText('bendOnDraw', { tuning, holes: draw });
  return blow ? guideText('bendOnBlow', { tuning, holes: blow }) : guideText('noBends', { tuning });
}
