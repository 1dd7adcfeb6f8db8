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
});
