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
  harps: { 'glide line × role shape': 1 },
  views: {},
  random: {
    'bar number × chord name': 2,
    'bar number × numeral': 3,
    'chord name × numeral': 4,
    'curve × curve': 5,
    'glide line × role shape': 3,
    'near: bar number × numeral': 1,
    'near: chord name × numeral': 1,
    'near: role shape × role shape': 7,
    'numeral × numeral': 1,
    'outside: numeral': 1,
    'spacing: equal durations': 1,
  },
};

/** Pixels that all blocks of the demo course are high together, in a window of 360 pixels. */
export const MOST_HEIGHT = 85_000;
