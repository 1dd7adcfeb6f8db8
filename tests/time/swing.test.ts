import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SHUFFLE, STRAIGHT } from '../../src/time/feel.ts';
import { evenBeats, playedTime, shareOf, swungBeat, writtenTime } from '../../src/time/swing.ts';

const BEAT = 24;
const shuffle = (onsets: readonly number[]) => ({ beat: BEAT, share: shareOf(SHUFFLE), even: evenBeats(onsets, BEAT) });
const playedAll = (onsets: readonly number[]): number[] => onsets.map((onset) => playedTime(shuffle(onsets), onset));

describe('the swing grid', () => {
  test('puts the second half of a shuffled beat at two thirds of it', () => {
    expect(playedAll([0, 12, 24, 36])).toEqual([0, 16, 24, 40]);
  });

  test('leaves straight beats where they are written', () => {
    const grid = { beat: BEAT, share: shareOf(STRAIGHT), even: evenBeats([0, 6, 12], BEAT) };
    expect([0, 6, 12, 18].map((place) => playedTime(grid, place))).toEqual([0, 6, 12, 18]);
    const places = Array.from({ length: 4 * 28 }, (_, place) => place);
    const exact = { beat: 28, share: shareOf(STRAIGHT), even: evenBeats([], 28) };
    expect(places.map((place) => playedTime(exact, place))).toEqual(places);
  });

  test('plays a written triplet as written, and still swings the beats beside it', () => {
    expect(playedAll([0, 8, 16, 24, 36])).toEqual([0, 8, 16, 24, 40]);
  });

  test('swings a later beat that has an onset on its half, whatever else it is divided in', () => {
    expect(evenBeats([24, 32, 36, 40], BEAT)).toEqual(new Set());
    expect(playedTime(shuffle([24, 32, 36, 40]), 36)).toBe(40);
  });

  test('plays a triplet over two beats as written', () => {
    expect(playedAll([0, 16, 32]).map((place) => Math.round(place * 1e9) / 1e9)).toEqual([0, 16, 32]);
  });

  test('keeps a triplet inside a swung half in proportion', () => {
    const places = playedAll([0, 12, 16, 20]);
    expect(places[1]).toBe(16);
    expect(places[2]).toBeCloseTo(16 + 8 / 3, 9);
  });

  test('swings eighths in cut time, and nothing in compound time', () => {
    expect(swungBeat({ beats: 2, unit: 2 })).toEqual({ n: 1, d: 4 });
    expect(swungBeat({ beats: 12, unit: 8 })).toBeUndefined();
  });

  const place = fc.integer({ min: 0, max: 4 * BEAT });
  const grid = fc
    .record({ share: fc.double({ min: 0.5, max: 0.8, noNaN: true }), onsets: fc.array(place) })
    .map(({ share, onsets }) => ({ beat: BEAT, share, even: evenBeats(onsets, BEAT) }));

  test('keeps the order of places, and every beat where it is', () => {
    fc.assert(
      fc.property(grid, place, place, (grid, a, b) => {
        if (a < b) expect(playedTime(grid, a)).toBeLessThan(playedTime(grid, b));
        expect(playedTime(grid, BEAT * Math.floor(a / BEAT))).toBe(BEAT * Math.floor(a / BEAT));
      }),
    );
  });

  test('can be undone', () => {
    fc.assert(
      fc.property(grid, place, (grid, a) => {
        expect(writtenTime(grid, playedTime(grid, a))).toBeCloseTo(a, 6);
      }),
    );
  });
});
