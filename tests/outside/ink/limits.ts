/**
 * How often each kind of fault may be found in any setting of a suite: as often as the engraver makes it today. A kind that is
 * not named may not be found at all. `node tests/outside/ink/measure.ts --limits` prints these numbers again; they only go down.
 */
import type { Counts, Suite } from './suites.ts';

export const LIMITS: Readonly<Record<Suite, Counts>> = {
  twoLessons: {},
  screens: {},
  largeText: {},
  paper: {},
  harps: {},
  views: {},
  // Parts of one bar that are in tiles of their own, twice; a bar of fifteen to the half that is crowded with parentheses; and the
  // tail of an ff that is 0.8 pixels from the label of a role.
  random: { 'spacing: equal durations': 3, 'spacing: longer with less': 1, 'near: dynamic × role label': 1 },
};

/** Pixels that all blocks of the demo course are high together, in a window of 360 pixels. */
export const MOST_HEIGHT = 85_000;
