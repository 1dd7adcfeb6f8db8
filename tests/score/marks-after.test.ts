/** At which event the marks are that come after their note. */
import { expect, test } from 'vitest';
import { marksAfter } from '../../src/score/marks-after.ts';
import { scoreOf } from '../engrave/pictures.ts';

/** Bar and event, from 0, of every event that the marks after it are known at. */
function placesIn(text: string): string[] {
  const score = scoreOf(text);
  const after = marksAfter(score);
  return score.bars.flatMap((bar, index) =>
    bar.events.flatMap((event, place) =>
      after.has(event) ? [`${index}.${place} ${after.get(event)?.map(({ name }) => name)}`] : [],
    ),
  );
}

test('they are at every event through which the note is held', () => {
  expect(placesIn('slot: 1/4\n4[breath accent] 4 4[breath] = | = 4 . 4')).toEqual([
    '0.0 breath',
    '0.2 breath',
    '1.0 breath',
  ]);
});

test('they are in every ending that holds the note on', () => {
  expect(placesIn('slot: 1/4\n|: 4 4 4[breath] = |1 = 5 5 5 :|2 = 6 6 6 |]')).toEqual([
    '0.2 breath',
    '1.0 breath',
    '2.0 breath',
  ]);
  expect(placesIn('slot: 1/4\n|: 4 4 4[breath] = |1 5[breath] = = = :|2 6 6 6 6 |]')).toEqual([
    '0.2 breath',
    '1.0 breath',
  ]);
});

test('other marks are not among them', () => {
  expect(placesIn('slot: 1/4\n4[tenuto] 4[ghost] 4[shake 5] 4')).toEqual([]);
});
