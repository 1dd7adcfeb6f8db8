import { describe, expect, test } from 'vitest';
import { type PlaySettings, restartsRounds, sameRound, tempoOfRound } from '../../src/schedule/settings.ts';
import { SETTINGS } from './some-block.ts';

const CHANGES: readonly (readonly [string, Partial<PlaySettings>, boolean, boolean])[] = [
  ['nothing', {}, true, false],
  ['the tempo', { tempo: 91 }, false, true],
  ['the swing', { swing: 0.6 }, false, false],
  ['the bars', { range: { first: 0, last: 1 } }, false, true],
  ['the loop', { loop: true }, true, false],
  ['the count-in', { countIn: true }, true, false],
  ['the bars left free', { trade: true }, false, false],
  ['a climb', { climb: { step: 4, goal: 120 } }, false, true],
  ['the variations of the band', { seed: 2 }, false, false],
];

describe('a change of', () => {
  test.each(CHANGES)('%s', (_, change, same, restarts) => {
    const changed = { ...SETTINGS, ...change };
    expect([sameRound(SETTINGS, changed), sameRound(changed, SETTINGS)]).toEqual([same, same]);
    expect([restartsRounds(SETTINGS, changed), restartsRounds(changed, SETTINGS)]).toEqual([restarts, restarts]);
  });
  test('the goal of a climb goes on counting rounds', () => {
    const [low, high] = [120, 140].map((goal) => ({ ...SETTINGS, climb: { step: 4, goal } }));
    expect(restartsRounds(low ?? SETTINGS, high ?? SETTINGS)).toBe(false);
  });
});

test('a loop climbs from its tempo to its goal, and not past it', () => {
  const climbing = { ...SETTINGS, loop: true, climb: { step: 8, goal: 110 } };
  expect([0, 1, 2, 3, 9].map((round) => tempoOfRound(climbing, round))).toEqual([90, 98, 106, 110, 110]);
  for (const still of [
    { ...climbing, loop: false },
    { ...climbing, climb: { step: 0, goal: 110 } },
    { ...climbing, climb: { step: -1, goal: 110 } },
    { ...climbing, climb: { step: 8, goal: 90 } },
    { ...climbing, climb: undefined },
  ])
    expect([0, 5].map((round) => tempoOfRound(still, round))).toEqual([90, 90]);
});
