/**
 * How often each kind of fault may be found in any setting of a suite: as often as the engraver makes it today. A kind that is
 * not named may not be found at all. `node tests/outside/ink/measure.ts --limits` prints these numbers again; they only go down.
 */
import type { Counts, Suite } from './suites.ts';

export const LIMITS: Readonly<Record<Suite, Counts>> = {
  twoLessons: {
    'spacing: last note at the bar line': 1,
  },
  screens: {
    'clef × lane name': 1,
    sideways: 3,
    'small: bar number': 67,
    'small: lane name': 140,
    'small: mark word': 6,
    'small: numeral': 71,
    'small: role label': 287,
    'small: small text': 2,
    'spacing: last note at the bar line': 2,
  },
  largeText: {
    'clef × lane name': 1,
    sideways: 8,
    'spacing: last note at the bar line': 2,
  },
  paper: {
    'near: role shape × role shape': 12,
    'spacing: last note at the bar line': 2,
  },
  harps: {
    'clef × lane name': 2,
    'outside: clef': 1,
    'outside: key sign': 1,
    'spacing: last note at the bar line': 11,
  },
  views: {
    'bar line × bar number': 2,
    'bar line × ending bracket': 1,
    'bar line × mouth band': 51,
    'bar line × tongue hatching': 32,
    'lane line × role shape': 403,
    'outside: bar line': 1,
    'spacing: last note at the bar line': 2,
  },
  random: {
    'accidental × beam': 9,
    'bar number × chord name': 2,
    'bar number × numeral': 3,
    'chord name × numeral': 5,
    'clef × lane name': 1,
    'curve × curve': 4,
    'curve × flag': 1,
    'curve × ledger line': 1,
    'curve × stem': 4,
    'glide line × role shape': 3,
    'held line × role label': 335,
    'near: bar number × chord name': 1,
    'near: bar number × numeral': 1,
    'near: role shape × role shape': 6,
    'numeral × numeral': 1,
    'outside: clef': 6,
    'outside: key sign': 7,
    'outside: numeral': 1,
    'spacing: equal durations': 1,
    'spacing: last note at the bar line': 5,
  },
};

/** Pixels that all blocks of the demo course are high together, in a window of 360 pixels. */
export const MOST_HEIGHT = 92_708;
