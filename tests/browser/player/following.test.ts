import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { handsOfReader, partToSee, scrollFor } from '../../../src/browser/player/following.ts';

describe('what is scrolled to', () => {
  test('is a row that is not wholly in sight', () => {
    const window = { top: 0, bottom: 600 };
    expect(scrollFor({ top: 0, bottom: 100 }, window)).toBe(0);
    expect(scrollFor({ top: 500, bottom: 600 }, window)).toBe(0);
    expect(scrollFor({ top: 501, bottom: 601 }, window)).toBe(501 - 90);
    expect(scrollFor({ top: -1, bottom: 99 }, window)).toBe(-1 - 90);
  });

  test('is under a bar at the top of the window too', () => {
    expect(scrollFor({ top: 20, bottom: 120 }, { top: 38.4, bottom: 600 })).toBeCloseTo(20 - 38.4 - 0.15 * 561.6, 9);
  });

  test('is in sight then, if there is room for it, and begins in sight in any case', () => {
    const whole = fc.integer({ min: -5000, max: 5000 });
    fc.assert(
      fc.property(whole, fc.integer({ min: 20, max: 900 }), fc.integer({ min: 0, max: 60 }), (at, height, top) => {
        const bottom = 640;
        const by = scrollFor({ top: at, bottom: at + height }, { top, bottom });
        const begins = at - by;
        expect(begins).toBeGreaterThanOrEqual(top);
        expect(begins).toBeLessThan(bottom);
        if (height + 8 <= bottom - top) expect(begins + height).toBeLessThanOrEqual(bottom);
      }),
    );
  });
});

describe('what is to be seen of a row', () => {
  const [row, lanes] = [
    { top: 100, bottom: 400 },
    { top: 300, bottom: 380 },
  ];
  test('is all of it where there is room, and else the lanes', () => {
    expect(partToSee(row, lanes, { top: 0, bottom: 300 })).toBe(row);
    expect(partToSee(row, lanes, { top: 0, bottom: 299 })).toBe(lanes);
    expect(partToSee(row, undefined, { top: 0, bottom: 299 })).toBe(row);
  });
});

describe('the reader’s hands', () => {
  test('have left the playing once they have scrolled, until it is asked for', () => {
    const hands = handsOfReader();
    expect(hands.haveLeft()).toBe(false);
    hands.scrolls(1000);
    hands.moved(1100);
    expect(hands.haveLeft()).toBe(false);
    hands.rests();
    hands.moved(1200);
    expect(hands.haveLeft()).toBe(true);
    hands.asked();
    expect(hands.haveLeft()).toBe(false);
  });

  test('are off at first, four seconds after scrolling and five after a control', () => {
    const hands = handsOfReader();
    expect(hands.areOff(0)).toBe(true);
    hands.moved(1000);
    expect([hands.areOff(4999), hands.areOff(5000)]).toEqual([false, true]);
    hands.used(10_000);
    expect([hands.areOff(14_999), hands.areOff(15_000)]).toEqual([false, true]);
    hands.used(20_000);
    hands.moved(20_500);
    expect([hands.areOff(24_999), hands.areOff(25_000)]).toEqual([false, true]);
  });

  test('are off as soon as playing is asked for', () => {
    const hands = handsOfReader();
    hands.used(1000);
    hands.asked();
    expect(hands.areOff(1001)).toBe(true);
  });

  test('are in any scrolling that is not the page’s own', () => {
    const hands = handsOfReader();
    hands.scrolls(1000);
    hands.moved(1100);
    expect(hands.areOff(1101)).toBe(true);
    hands.rests();
    hands.moved(1200);
    expect(hands.areOff(1201)).toBe(false);
    hands.scrolls(10_000);
    hands.moved(11_501);
    expect(hands.areOff(11_502)).toBe(false);
  });
});
