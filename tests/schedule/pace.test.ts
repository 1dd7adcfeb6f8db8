/** Written time that passes faster or slower, and waits. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BarPace, secondsTo, tickAfter } from '../../src/schedule/pace.ts';
import { roundPlan } from '../../src/schedule/plan.ts';
import { writtenSettings } from '../../src/schedule/settings.ts';
import { lastOf } from '../../src/values/checked.ts';
import { playbackFrom } from './some-block.ts';

const pace = fc.record({
  ticks: fc.integer({ min: 1, max: 96 }),
  from: fc.double({ min: 0.5, max: 200, noNaN: true }),
  to: fc.double({ min: 0.5, max: 200, noNaN: true }),
});

describe('a bar that becomes faster or slower', () => {
  test('takes the time that its rate adds up to, piece by piece', () => {
    fc.assert(
      fc.property(pace, ({ ticks, from, to }) => {
        const pieces = 20_000;
        let seconds = 0;
        for (let piece = 0; piece < pieces; piece++)
          seconds += ticks / pieces / (from + ((to - from) * (piece + 0.5)) / pieces);
        const found = secondsTo({ ticks, from, to, waits: [] }, ticks);
        expect(Math.abs(found - seconds) / seconds).toBeLessThan(1e-4);
      }),
      { numRuns: 40 },
    );
  });
  test('is at each place at one time, and back', () => {
    fc.assert(
      fc.property(pace, fc.double({ min: 0, max: 1, noNaN: true }), ({ ticks, from, to }, share) => {
        const own: BarPace = { ticks, from, to, waits: [] };
        expect(tickAfter(own, secondsTo(own, share * ticks))).toBeCloseTo(share * ticks, 6);
      }),
    );
  });
  test('is never earlier at a later place', () => {
    fc.assert(
      fc.property(pace, fc.nat(95), fc.nat(95), (own, a, b) => {
        const all: BarPace = { ...own, ticks: 96, waits: [{ at: 48, length: 24 }] };
        expect(secondsTo(all, Math.min(a, b))).toBeLessThanOrEqual(secondsTo(all, Math.max(a, b)));
      }),
    );
  });
});

describe('where time waits', () => {
  const waiting: BarPace = { ticks: 8, from: 2, to: 2, waits: [{ at: 4, length: 2 }] };
  test('what is before it is as early as ever, and what begins there comes after it', () => {
    expect([0, 2, 3.9, 4, 6, 8].map((tick) => secondsTo(waiting, tick))).toEqual([0, 1, 1.95, 3, 4, 5]);
  });
  test('every moment of the wait is at its place', () => {
    expect([1, 2, 2.5, 3, 4].map((seconds) => tickAfter(waiting, seconds))).toEqual([2, 4, 4, 4, 6]);
  });
});

describe('a block', () => {
  const plan = (text: string) => {
    const playback = playbackFrom(text);
    return roundPlan(playback, writtenSettings(playback), 0);
  };
  const attacks = (text: string): number[] =>
    plan(text).cues.flatMap((cue) => (cue.kind === 'line' ? [Math.round(cue.at * 1000) / 1000] : []));
  test('with a change of tempo is played at both tempos', () => {
    expect(attacks('tempo: 60\nslot: 1/4\n4 5 6 7 |\ntempo: 120\n4 5 6 7 |]')).toEqual([0, 1, 2, 3, 4, 4.5, 5, 5.5]);
  });
  test('with a fermata waits, metronome and band too', () => {
    const text = 'tempo: 60\nslot: 1/4\nchords: I7\n4 5[fermata] 6 7 |]';
    expect(attacks(text)).toEqual([0, 1, 3, 4]);
    const { cues, round } = plan(text);
    expect(round.seconds).toBe(5);
    const clicks = cues.filter((cue) => cue.kind === 'hit' && cue.piece !== 'accent' && cue.piece === 'click');
    expect(clicks.map(({ at }) => at)).toEqual([1, 3, 4]);
    const inWait = cues.filter(({ at }) => at > 2 && at < 3);
    expect(inWait).toEqual([]);
  });
  test('with another meter has its beats: 4/4 and then 6/8 with beats as long', () => {
    expect(attacks('tempo: 60\nslot: 1/4\n4 5 6 7 |\nmeter: 6/8\nslot: 3/8\n4 5 |]')).toEqual([0, 1, 2, 3, 4, 5]);
  });
  test('with a feel of its own in some bars swings there', () => {
    expect(attacks('tempo: 60\nmeter: 1/4\n4 5 |\nfeel: shuffle\n4 5 |]')).toEqual([0, 0.5, 1, 1.667]);
  });
  test('holds the note of a fermata to its end', () => {
    const { cues } = plan('tempo: 60\nslot: 1/4\n4 5 6 7[fermata] |]');
    const line = lastOf(cues.filter((cue) => cue.kind === 'line'));
    expect(line.at + line.seconds).toBeGreaterThan(4.9);
  });
});
