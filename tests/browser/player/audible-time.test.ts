import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { audibleTimeOf } from '../../../src/browser/player/audible-time.ts';

const stamp = (contextTime: number, performanceTime: number) => () => ({ contextTime, performanceTime });
const device = { currentTime: 10, outputLatency: 0.16, baseLatency: 0.05 };

describe('what is heard now', () => {
  test('is what was heard at the last timestamp, and the time since then', () => {
    const context = { ...device, getOutputTimestamp: stamp(9.8, 5000) };
    expect(audibleTimeOf(context, 5000)).toBeCloseTo(9.8, 9);
    expect(audibleTimeOf(context, 5031)).toBeCloseTo(9.831, 9);
  });

  test('is never later than what has been made', () => {
    expect(audibleTimeOf({ ...device, getOutputTimestamp: stamp(9.8, 5000) }, 90_000)).toBe(10);
  });

  test('is late by the latency where there is no timestamp', () => {
    expect(audibleTimeOf({ ...device, getOutputTimestamp: stamp(0, 0) }, 5000)).toBeCloseTo(9.84, 9);
    const old = { currentTime: 10, baseLatency: 0.05 } as unknown as AudioContext;
    expect(audibleTimeOf(old, 5000)).toBeCloseTo(9.95, 9);
  });

  test.each([
    ['lies ahead of the page’s clock, as in WebKit', stamp(9.8, 5000 + 9800)],
    ['is not behind the context’s clock', stamp(10, 5000)],
    ['is ahead of the context’s clock', stamp(10.2, 5000)],
    ['is two seconds behind it', stamp(8, 5000)],
  ])('is late by the latency where the timestamp %s', (_, getOutputTimestamp) => {
    expect(audibleTimeOf({ ...device, getOutputTimestamp }, 5000)).toBeCloseTo(9.84, 9);
  });

  test('moves on with the clocks, whatever a browser’s timestamp means', () => {
    const offset = fc.double({ min: -1e4, max: 1e4, noNaN: true });
    fc.assert(
      fc.property(offset, offset, fc.double({ min: 0, max: 0.5, noNaN: true }), (context, page, outputLatency) => {
        const heardAfter = (seconds: number): number => {
          const currentTime = 100 + seconds;
          const now = 1e5 + seconds * 1000;
          const getOutputTimestamp = stamp(currentTime + context, now + page);
          return audibleTimeOf({ currentTime, outputLatency, baseLatency: 0.05, getOutputTimestamp }, now);
        };
        expect(heardAfter(3) - heardAfter(0)).toBeCloseTo(3, 6);
        expect(heardAfter(0)).toBeLessThanOrEqual(100);
        expect(heardAfter(0)).toBeGreaterThan(98);
      }),
    );
  });
});
