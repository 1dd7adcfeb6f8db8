import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carryOver, positionAt, roundOf, secondsAt } from '../../src/schedule/round.ts';
import { tempoOfRound } from '../../src/schedule/settings.ts';
import { meterOf } from '../../src/score/playback.ts';
import { toNumber } from '../../src/time/fraction.ts';
import { barLength, secondsOfWhole } from '../../src/time/meter.ts';
import { itemAt } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import { playbackFrom, SETTINGS } from './some-block.ts';

const settings = fc
  .record({
    tempo: fc.double({ min: 20, max: 300, noNaN: true }),
    swing: fc.double({ min: 0.5, max: 0.75, noNaN: true }),
    trade: fc.boolean(),
  })
  .map((some) => ({ ...SETTINGS, ...some }));

/** A block without changes of tempo in its music, and without notes at which time waits. */
const inOneTempo = (text: string): string => {
  const [head, ...music] = withoutWaits(text).split('\n\n');
  return [head, ...music.map((part) => part.replace(/^tempo:.*\n/gm, ''))].join('\n\n');
};

const withoutWaits = (text: string): string => text.replace(/\[fermata\]|, fermata|fermata, /g, '');

describe('a round', () => {
  test('takes the seconds of its bars: their number times the meter at the tempo', () => {
    fc.assert(
      fc.property(blockText, settings, (text, settings) => {
        const playback = playbackFrom(inOneTempo(text.replace(/^pickup.*\n/m, '').replace(/^-4 \| /m, '')));
        const round = roundOf(playback, settings, 0);
        const bars = round.measures.map(({ bar }) => meterOf(playback, itemAt(playback.bars, bar)));
        const seconds = bars.map((meter) => toNumber(barLength(meter)) * secondsOfWhole(meter, settings.tempo));
        expect(round.measures).toHaveLength(playback.order.length * (settings.trade ? 2 : 1));
        expect(round.seconds).toBeCloseTo(
          seconds.reduce((sum, each) => sum + each, 0),
          6,
        );
      }),
    );
  });

  test('has a pickup and a last bar that make up one bar, swung or not', () => {
    for (const swing of [0.5, 2 / 3, 0.7]) {
      const playback = playbackFrom('slot: 1/8\npickup: 1\n4 | 4 = = = = = = = | 4 = = = = = =');
      const round = roundOf(playback, { ...SETTINGS, tempo: 60, swing }, 0);
      expect(round.seconds).toBeCloseTo(8, 9);
      expect(round.measures[0]?.seconds).toBeCloseTo(1 - swing, 9);
    }
  });

  test('swings a beat in which only a chord changes, at a third of the bar, under a held note', () => {
    const music = 'slot: 1/16\n4 =4 5 =9 6';
    const times = ['', 'chords: I7 IV7 V7\n'].map((chords) => {
      const playback = playbackFrom(chords + music);
      const round = roundOf(playback, { ...SETTINGS, tempo: 60, swing: 2 / 3 }, 0);
      return [5, 15].map((sixteenths) =>
        itemAt(round.measures, 0).grid.at(itemAt(playback.bars, 0).length * (sixteenths / 16)),
      );
    });
    expect(itemAt(itemAt(times, 0), 1)).toBeCloseTo(itemAt(itemAt(times, 1), 1), 9);
    expect(times[0]?.[0]).toBeCloseTo(1 + 1 / 3, 9);
  });

  test('is made of measures end to end', () => {
    fc.assert(
      fc.property(blockText, settings, (text, settings) => {
        const { measures, seconds } = roundOf(playbackFrom(text), settings, 0);
        for (const [index, measure] of measures.entries()) {
          expect(measures[index + 1]?.at ?? seconds).toBeCloseTo(measure.at + measure.seconds, 6);
        }
      }),
    );
  });

  test('finds the place of any time in it, and the time of that place again', () => {
    fc.assert(
      fc.property(blockText, settings, fc.double({ min: 0, max: 0.999, noNaN: true }), (text, settings, share) => {
        // Where time waits, a place has more than one time.
        const round = roundOf(playbackFrom(withoutWaits(text)), settings, 3);
        const position = positionAt(round, share * round.seconds);
        expect(position.round).toBe(3);
        expect(secondsAt(round, position)).toBeCloseTo(share * round.seconds, 6);
      }),
    );
  });

  test('leaves every bar free to answer after it was played', () => {
    const playback = playbackFrom('slot: 1/4\n4 4 4 4 | 5 5 5 5');
    const { measures } = roundOf(playback, { ...SETTINGS, trade: true }, 0);
    expect(measures.map(({ bar, answer }) => [bar, answer])).toEqual([
      [0, false],
      [0, true],
      [1, false],
      [1, true],
    ]);
  });
});

describe('the tempo of a round', () => {
  const climb = { ...SETTINGS, loop: true, tempo: 60, climb: { step: 7, goal: 80 } };

  test('rises by its step each round and stays at its goal', () => {
    expect([0, 1, 2, 3, 4].map((round) => tempoOfRound(climb, round))).toEqual([60, 67, 74, 80, 80]);
  });

  test('stays where it is without a loop, without a step, or above the goal', () => {
    expect(tempoOfRound({ ...climb, loop: false }, 3)).toBe(60);
    expect(tempoOfRound({ ...climb, climb: { step: 0, goal: 80 } }, 3)).toBe(60);
    expect(tempoOfRound({ ...climb, climb: { step: 5, goal: 50 } }, 3)).toBe(60);
  });
});

describe('a place in the music', () => {
  const playback = playbackFrom('slot: 1/4\n4 4 4 4 | 5 5 5 5 | 6 6 6 6 | 7 7 7 7');
  const whole = roundOf(playback, SETTINGS, 0);
  const loop = roundOf(playback, { ...SETTINGS, range: { first: 1, last: 2 } }, 0);

  test('stays the same bar and slot when tempo and swing change', () => {
    const other = roundOf(playback, { ...SETTINGS, tempo: 45, swing: 2 / 3 }, 0);
    const position = { round: 0, measure: 2, tick: 3 };
    expect(carryOver(position, whole, other)).toEqual(position);
    expect(secondsAt(other, position)).toBeGreaterThan(secondsAt(whole, position));
  });

  test('is found again in a loop around it, and is the start of a loop elsewhere', () => {
    expect(carryOver({ round: 2, measure: 2, tick: 3 }, whole, loop)).toEqual({ round: 2, measure: 1, tick: 3 });
    expect(carryOver({ round: 2, measure: 3, tick: 3 }, whole, loop)).toEqual({ round: 2, measure: 0, tick: 0 });
  });

  test('stays where it is whatever tempo and swing it is given', () => {
    fc.assert(
      fc.property(blockText, settings, settings, fc.double({ min: 0, max: 1, noNaN: true }), (text, a, b, share) => {
        const playback = playbackFrom(text);
        const from = roundOf(playback, a, 0);
        const to = roundOf(playback, { ...b, trade: a.trade }, 0);
        const position = positionAt(from, share * from.seconds);
        expect(carryOver(position, from, to)).toEqual(position);
      }),
    );
  });

  test('stays in the same time round when the bars after each are left free, and when they are not any more', () => {
    const again = playbackFrom('slot: 1/4\n|: 4 4 4 4 | 5 5 5 5 :|');
    const plain = roundOf(again, SETTINGS, 0);
    const traded = roundOf(again, { ...SETTINGS, trade: true }, 0);
    fc.assert(
      fc.property(fc.nat(plain.measures.length - 1), fc.nat(3), (measure, tick) => {
        const position = { round: 0, measure, tick };
        const there = carryOver(position, plain, traded);
        expect(there).toEqual({ round: 0, measure: 2 * measure, tick });
        expect(carryOver(there, traded, plain)).toEqual(position);
        // A student who is answering stays at the bar they answer.
        expect(carryOver({ ...there, measure: there.measure + 1 }, traded, plain)).toEqual(position);
      }),
    );
  });
});
