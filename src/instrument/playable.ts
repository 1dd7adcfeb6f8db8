/** Everything a harp can sound, and where a given pitch lies on it. */
import { bendsOfHole, deepestQuarterStep, sounding } from './bend.ts';
import { type Breath, type Harp, type HoleNote, holeCount } from './harp.ts';
import { endsInQuarter, QUARTER } from './quarter-step.ts';

/** One note as played: a hole, its breath, and what is done to the reed. */
export interface Playable extends HoleNote {
  readonly breath: Breath;
  readonly midi: number;
}

/** How a note is produced, easiest first. */
export type Means = 'reed' | 'slide' | 'bend' | 'overbend';
/** From the easiest to the hardest. */
export const MEANS: readonly Means[] = ['reed', 'slide', 'bend', 'overbend'];

/** How a note is produced: on a plain reed, with the slide, as a bend or as an overbend. */
export const meansOf = (note: HoleNote): Means =>
  note.over ? 'overbend' : note.bend > 0 ? 'bend' : note.slide ? 'slide' : 'reed';

/** Every note of one hole but its quarter steps: reeds, bends from shallow to deep, overbend; then all of it with the slide pressed. */
export function notesOfHole(harp: Harp, hole: number): readonly Playable[] {
  const range = bendsOfHole(harp, hole);
  const plain: { breath: Breath; bend: number; over: boolean }[] = [
    { breath: 'blow', bend: 0, over: false },
    { breath: 'draw', bend: 0, over: false },
  ];
  for (let bend = 1; range.bends && bend <= range.deepest; bend++)
    plain.push({ breath: range.bends, bend, over: false });
  if (range.overbends) plain.push({ breath: range.overbends, bend: 0, over: true });
  const slides = harp.tuning.slide === undefined ? [false] : [false, true];
  return slides.flatMap((slide) =>
    plain.map(({ breath, bend, over }): Playable => {
      const note = { hole, bend, over, slide };
      const sound = sounding(harp, breath, note);
      if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${hole}`);
      return { ...note, breath, midi: sound.midi };
    }),
  );
}

/** Every note of the harp but its quarter steps, hole by hole. */
export const notesOf = (harp: Harp): readonly Playable[] =>
  Array.from({ length: holeCount(harp) }, (_, index) => notesOfHole(harp, index + 1)).flat();

/** The quarter steps of the harp, hole by hole from shallow to deep; then all of it with the slide pressed. */
export function quarterStepsOf(harp: Harp): readonly Playable[] {
  const slides = harp.tuning.slide === undefined ? [false] : [false, true];
  const found: Playable[] = [];
  for (const slide of slides)
    for (let hole = 1; hole <= holeCount(harp); hole++) {
      const range = bendsOfHole(harp, hole);
      const { bends: breath } = range;
      for (let bend = QUARTER; breath && bend <= deepestQuarterStep(range); bend++) {
        const note = { hole, bend, over: false, slide };
        const sound = sounding(harp, breath, note);
        if ('midi' in sound) found.push({ ...note, breath, midi: sound.midi });
      }
    }
  return found;
}

/** Every place of a pitch on the harp: the easiest means first, then the shallowest bend, then the lowest hole. */
export const placesOfPitch = (harp: Harp, midi: number): readonly Playable[] =>
  (endsInQuarter(midi) ? quarterStepsOf(harp) : notesOf(harp))
    .filter((note) => note.midi === midi)
    .sort((a, b) => MEANS.indexOf(meansOf(a)) - MEANS.indexOf(meansOf(b)) || a.bend - b.bend);

/** The note as a player types it: `4`, `-3'`, `-3'q`, `6o`, `-4*`. */
export const tabOf = (note: HoleNote & { readonly breath: Breath }): string => sign(note.breath) + holeText(note);

/** The notes of one breath as a player types them: `-(1 2 3)`, or `-3'` for a single one. */
export const tabOfNotes = (notes: readonly HoleNote[], breath: Breath): string => {
  const holes = notes.map(holeText).join(' ');
  return sign(breath) + (notes.length === 1 ? holes : `(${holes})`);
};

const sign = (breath: Breath): string => (breath === 'draw' ? '-' : '');
const holeText = (note: HoleNote): string =>
  `${note.hole}${"'".repeat(note.bend)}${endsInQuarter(note.bend) ? 'q' : ''}${note.over ? 'o' : ''}${note.slide ? '*' : ''}`;

const BENDS = ['', 'half-step bend', 'whole-step bend', 'step-and-a-half bend', 'two-step bend'];

/** A bend by its depth in half steps, more than 0: `half-step bend`, `half-step bend and a quarter step`. */
export function bendInWords(halfSteps: number): string {
  if (halfSteps === QUARTER) return 'quarter-step bend';
  const whole = Math.floor(halfSteps);
  const words = BENDS[whole] ?? `bend of ${whole} half steps`;
  return whole === halfSteps ? words : `${words} and a quarter step`;
}

/** The note as read aloud: `draw 3, half-step bend`. */
export function inWords(note: HoleNote & { readonly breath: Breath }): string {
  if (note.over) return `${note.breath === 'blow' ? 'overblow' : 'overdraw'} ${note.hole}`;
  const bend = note.bend > 0 ? `, ${bendInWords(note.bend)}` : '';
  return `${note.breath} ${note.hole}${bend}${note.slide ? ', slide pressed' : ''}`;
}
