import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { tempoScale } from '../../../src/browser/player/tempo.ts';
import { howLongAgo } from '../../../src/browser/progress/how-long-ago.ts';
import { isWorthSaving } from '../../../src/browser/progress/lasting.ts';
import { blockHash, readPlace } from '../../../src/browser/progress/place.ts';
import {
  blockSettings,
  readBlockSettings,
  settingsFor,
  TEMPO_SHARES,
} from '../../../src/browser/progress/remembered.ts';
import { blockAnchor } from '../../../src/site/addresses.ts';
import { entry, record } from './some-progress.ts';

const LIMITS = { tempo: { least: 30, most: 150 }, swing: { least: 0.5, most: 0.75 } };
const own = (bars: number) => ({ bars: Array.from({ length: bars }, () => ({ number: 1, events: [] })) }) as never;

describe('settings of a block', () => {
  test('are read as they were kept, and as nothing where they are none', () => {
    const set = { tempo: 66.254, swing: 2 / 3, loop: true, range: { first: 2, last: 3 } };
    const kept = blockSettings({ ...set, countIn: true, trade: false, seed: 7 });
    expect(kept).toEqual({ tempo: 66.25, swing: 0.667, loop: true, bars: [2, 3] });
    expect(readBlockSettings(JSON.parse(JSON.stringify(kept)))).toEqual(kept);
    for (const value of [null, 7, 'x', {}, { tempo: 0, swing: 0.5 }, { tempo: '66', swing: 0.5 }, { tempo: 66 }])
      expect(readBlockSettings(value)).toBeUndefined();
    for (const bars of [[3, 2], [-1, 2], [1], [0.5, 1], 'ab', [null, 1]])
      expect(readBlockSettings({ tempo: 66, swing: 0.5, loop: 1, bars })).toEqual({
        tempo: 66,
        swing: 0.5,
        loop: false,
      });
  });

  test('are offered as far as the block has them', () => {
    const offered = (bars: readonly [number, number] | undefined, tempo = 66, swing = 0.5) =>
      settingsFor({ tempo, swing, loop: true, ...(bars && { bars }) }, own(4), LIMITS);
    expect(offered([2, 3])).toEqual({ tempo: 66, swing: 0.5, loop: true, range: { first: 2, last: 3 } });
    expect(offered([2, 4])).toEqual({ tempo: 66, swing: 0.5, loop: false, range: undefined });
    expect(offered(undefined, 500, 0.9)).toEqual({ tempo: 150, swing: 0.75, loop: true, range: undefined });
    expect(offered(undefined, 1, 0)).toMatchObject({ tempo: 30, swing: 0.5 });
  });

  test('whatever is kept, are such as the player can be set to', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.jsonValue(), fc.record({ tempo: fc.double(), swing: fc.double(), bars: fc.jsonValue() })),
        (value) => {
          const kept = readBlockSettings(value);
          if (!kept) return;
          const { tempo, swing, range } = settingsFor(kept, own(4), LIMITS);
          expect([tempo >= 30, tempo <= 150, swing >= 0.5, swing <= 0.75]).toEqual([true, true, true, true]);
          if (range) expect(range.first >= 0 && range.first <= range.last && range.last < 4).toBe(true);
        },
      ),
    );
  });

  test('are limited as the player’s own controls are', () => {
    const { least, most } = tempoScale(100);
    expect([TEMPO_SHARES.least * 100, TEMPO_SHARES.most * 100]).toEqual([least, most]);
  });
});

test('a place is a lesson, with a block or without', () => {
  expect(readPlace({ lesson: 'a', block: 'b', more: 1 })).toEqual({ lesson: 'a', block: 'b' });
  expect(readPlace({ lesson: 'a', block: 7 })).toEqual({ lesson: 'a' });
  for (const value of [undefined, null, 7, 'a', [], { block: 'b' }]) expect(readPlace(value)).toBeUndefined();
  expect(blockHash('b ü')).toBe(`#${encodeURIComponent(blockAnchor('b ü'))}`);
});

test('how long ago something was is said by days of the calendar', () => {
  const at = (date: string): number => new Date(date).getTime();
  const now = at('2026-11-28T00:30');
  const ago = (date: string) => howLongAgo(at(date), now, 'en');
  expect(
    [
      '2026-11-28T00:10',
      '2026-11-27T23:50',
      '2026-11-25T12:00',
      '2026-11-20T12:00',
      '2026-09-01T12:00',
      '2024-11-01T12:00',
    ].map(ago),
  ).toEqual(['today', 'yesterday', '3 days ago', 'last week', '2 months ago', '2 years ago']);
  // A clock that was wrong says nothing.
  expect([howLongAgo(0, now, 'en'), ago('2026-11-30T12:00')]).toEqual([undefined, undefined]);
});

test('progress is worth a file where there is some, it is a week old, and there is none yet', () => {
  const DAY = 86_400_000;
  const now = 1000 * DAY;
  const done = (count: number, days: number) =>
    record({
      blocks: Object.fromEntries(
        Array.from({ length: count }, (_, index) => [`a/${index}`, entry(true, index, 'd', now - days * DAY)]),
      ),
    });
  expect(isWorthSaving(done(5, 7), {}, now)).toBe(true);
  expect(isWorthSaving(done(4, 7), {}, now)).toBe(false);
  expect(isWorthSaving(done(5, 6), {}, now)).toBe(false);
  for (const noted of ['saved', 'declined']) {
    expect(isWorthSaving(done(5, 90), { [noted]: now - 59 * DAY }, now)).toBe(false);
    expect(isWorthSaving(done(5, 90), { [noted]: now - 60 * DAY }, now)).toBe(true);
    // A clock that was ahead does not silence it for good.
    expect(isWorthSaving(done(5, 90), { [noted]: now + DAY }, now)).toBe(true);
  }
});
