import type { Score } from '../../src/score/score.ts';

/** A score without where it was written, which is all that printing may change. */
export const withoutPlaces = (score: Score): unknown =>
  JSON.parse(JSON.stringify(score, (key, value) => (key === 'span' || key === 'source' ? undefined : value)));
