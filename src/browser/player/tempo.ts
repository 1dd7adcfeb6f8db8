/** How far the tempo of a block can be set, and the loop that speeds up. Tempos are in beats a minute, in the block's own beats. */
import type { PlaySettings } from '../../schedule/settings.ts';
import type { SliderRange } from './dom.ts';

/** The tempo in percent of the written one. */
export const TEMPO_PERCENT_RANGE = { least: 30, most: 150, step: 1 };

/** Beats a minute, as far as the tempo can be set. */
export const tempoScale = (written: number): SliderRange => ({
  least: Math.round((written * TEMPO_PERCENT_RANGE.least) / 100),
  most: Math.round((written * TEMPO_PERCENT_RANGE.most) / 100),
  step: 1,
});

/** Beats a minute that each round is faster, until a student sets another step. */
const STEP = 4;
/** How much faster than it is written a tune that is played as fast already can become. */
const BEYOND = 1.2;

/** A loop that speeds up from `tempo`: to the written tempo, and beyond it where the loop is as fast already. */
export function usualClimb(tempo: number, written: number): NonNullable<PlaySettings['climb']> {
  return { step: STEP, goal: Math.round(tempo < Math.round(written) ? written : Math.max(tempo, written) * BEYOND) };
}
