import { describe, expect, it } from 'vitest';
import { type Difficulty, difficultyOf } from '../../src/technique/difficulty.ts';
import { scoreOf } from './tab.ts';

const difficulty = (text: string): Difficulty => difficultyOf(scoreOf(text));
const level = (text: string): number => difficulty(text).level;
const part = (text: string, name: string) => difficulty(text).parts.find((one) => one.name === name);

const TUNE = 'slot: 1/4\ntempo: 80\n4 5 6 5 | -4 -5 -6 -5 | 4 -4 5 -5 | 4 = = .';

describe('the difficulty of a block', () => {
  it('is about one for a first tune on open notes, and most of ten for a fast chorus of deep bends', () => {
    expect(level(TUNE)).toBeLessThan(1.5);
    const chorus = `slot: 1/16\ntempo: 120\n${Array(12).fill("-3'' -3''' -3'' 6o -2'' 4 -3' 1 -4' 10'' -3'' -2'' 6o -3''' 3[tongue] -2''").join(' | ')}`;
    expect(level(chorus)).toBeGreaterThan(6);
    expect(level(chorus)).toBeLessThanOrEqual(10);
  });

  it('adds up from its parts, the weightiest first', () => {
    const { level: sum, parts } = difficulty("slot: 1/8\ntempo: 100\n-3' 6 -2'' 4 -1 5[tongue] 6 -3");
    expect(sum).toBeCloseTo(
      parts.reduce((total, { points }) => total + points, 0),
      5,
    );
    expect(parts.map(({ points }) => points)).toEqual(parts.map(({ points }) => points).sort((a, b) => b - a));
  });

  it('grows with the tempo', () => {
    expect(level(TUNE.replace('80', '200'))).toBeGreaterThan(level(TUNE));
  });

  it('grows with the depth of a bend, and with how it is come to', () => {
    const bent = (word: string) => level(`slot: 1/4\n-3 -3 ${word} .`);
    expect(bent("-3'")).toBeGreaterThan(bent('-3'));
    expect(bent("-3''")).toBeGreaterThan(bent("-3'"));
    expect(bent("-3'''")).toBeGreaterThan(bent("-3''"));
    expect(level("slot: 1/4\n-3 -3> -3'' .")).toBeLessThan(level("slot: 1/4\n-3 -4 -3'' ."));
    expect(part("slot: 1/4\n-3 -4 -3'' .", 'bends')).toMatchObject({
      words: 'One bent note, the hardest draw 3 bent a whole step, struck from another hole.',
      at: 2,
    });
  });

  it('grows with turns of the breath, jumps and switches of the embouchure', () => {
    const plain = 'slot: 1/4\n4 5 6 5';
    expect(level('slot: 1/4\n4 -4 4 -4')).toBeGreaterThan(level(plain));
    expect(level('slot: 1/4\n1 6 1 6')).toBeGreaterThan(level(plain));
    expect(level('slot: 1/4\n4 5[tongue] 6 5[tongue]')).toBeGreaterThan(level(plain));
    expect(part('slot: 1/8\n4 5[tongue] 6 5 5 = = =', 'mouth')?.words).toBe(
      'The embouchure is switched 2 times, each within a beat.',
    );
  });

  it('says of the air that it is estimated very roughly', () => {
    const words = part(`tempo: 60\nslot: 1/4\n${Array(3).fill('-4 -4 -4 -4').join(' | ')}`, 'breath')?.words;
    expect(words).toBe('Up to 12 seconds on the draw without a turn: very roughly 2.4 litres of air.');
  });

  it('is nothing for rests', () => {
    expect(difficulty('slot: 1/4\n. . . .')).toMatchObject({ level: 0, parts: [] });
  });

  it('is not doubled by a repeat', () => {
    expect(level("slot: 1/4\n|: -4' 4 5 -4 :|")).toBeCloseTo(level("slot: 1/4\n-4' 4 5 -4 | -4' 4 5 -4"), 5);
  });
});

describe('each part of the difficulty', () => {
  const slow = (text: string): string => `tempo: 60\nslot: 1/4\n${text}`;

  it('pace is nothing at a note a second, and the most at six', () => {
    expect(part(slow('4 5 6 5'), 'pace')).toBeUndefined();
    expect(part('tempo: 120\nslot: 1/4\n4 5 6 5', 'pace')).toMatchObject({
      points: 0.5,
      words: 'Up to 2 notes a second, in bar 1.',
    });
    expect(part('tempo: 180\nslot: 1/8\n4 5 6 5 4 5 6 5', 'pace')?.points).toBe(2.5);
    expect(part('tempo: 360\nslot: 1/8\n4 5 6 5 4 5 6 5', 'pace')?.points).toBe(2.5);
  });

  it('pace is that of the busiest bar, as numbered in the block, and not of a pickup', () => {
    expect(part('tempo: 120\nslot: 1/4\n4 = 5 = | 4 5 6 5 | 4 = = =', 'pace')?.words).toBe(
      'Up to 2 notes a second, in bar 2.',
    );
    expect(part('tempo: 120\npickup: 1\nslot: 1/4\n4 | 4 = 5 = | 4 5 6 =', 'pace')?.words).toBe(
      'Up to 1.5 notes a second, in bar 2.',
    );
    expect(part('tempo: 120\nslot: 1/4\n4 5 4 = | = = = =', 'pace')?.words).toBe('Up to 1.5 notes a second, in bar 1.');
  });

  it.each([
    ["-3' = = =", 2.8, 'One bent note, the hardest draw 3 bent a half step, struck from nothing.'],
    ["-3 -3' . .", 1.4, 'One bent note, the hardest draw 3 bent a half step, from its own hole.'],
    ["-3 . -3' -4", 1.4, 'One bent note, the hardest draw 3 bent a half step, struck from nothing.'],
    ["3 -3' . -4", 1.4, 'One bent note, the hardest draw 3 bent a half step, struck from another hole.'],
    ["-3> -3' . .", 1.3, 'One bent note, the hardest draw 3 bent a half step, glided into.'],
    ["-3' -3'' -3''' .", 3, '3 bent notes, the hardest draw 3 bent a step and a half, from its own hole.'],
    ["8' 8 8 8", 1.8, 'One bent note, the hardest blow 8 bent a half step, struck from nothing.'],
    ['4 4 4 6o', 3, 'One bent note, the hardest overblow 6, struck from another hole.'],
    ['-9o -4 -4 -4', 3, 'One bent note, the hardest overdraw 9, struck from nothing.'],
    ["-4 -4 -4 -(2'' 3')", 1.8, 'One bent note, the hardest draw 2 bent a whole step, struck from another hole.'],
  ])('bends: %s', (text, points, words) => expect(part(slow(text), 'bends')).toMatchObject({ points, words }));

  it('bends of no note are no part', () => expect(part(slow('4 -4 5 -5'), 'bends')).toBeUndefined());

  it('turns of the breath count by the second', () => {
    expect(part(slow('4 -4 4 -4'), 'turns')).toMatchObject({ points: 0.4, words: 'The breath turns round 3 times.' });
    expect(part(slow('4 -4 . .'), 'turns')).toMatchObject({ points: 0.1, words: 'The breath turns round one time.' });
    expect(part(slow('4 5 . .'), 'turns')).toBeUndefined();
  });

  it('jumps count the holes passed over, and point at the widest', () => {
    expect(part(slow('4 6 . .'), 'jumps')).toMatchObject({
      points: 0.5,
      words: 'One jump, the widest of 2 holes.',
      at: 1,
    });
    expect(part(slow('4 6 3 6'), 'jumps')).toMatchObject({
      points: 1,
      words: '3 jumps, the widest of 3 holes.',
      at: 2,
    });
    expect(part(slow('4 5 4 5'), 'jumps')).toBeUndefined();
  });

  it('the embouchure counts its switches, those within a beat twice', () => {
    expect(part(`mouth: tongue\n${slow('4 5 6 5')}`, 'mouth')).toMatchObject({
      points: 0.2,
      words: 'The tongue stays on the harp.',
    });
    expect(part(slow('4 5[tongue] 6[tongue] 5[tongue]'), 'mouth')).toMatchObject({
      points: 0.3,
      words: 'The embouchure is switched one time.',
      at: 1,
    });
    expect(part('tempo: 60\nslot: 1/8\n4 5[tongue] 6 = = 5 5[tongue] =', 'mouth')).toMatchObject({
      points: 0.8,
      words: 'The embouchure is switched 3 times, each within a beat.',
      at: 1,
    });
    expect(part('tempo: 60\nslot: 1/8\n4 5[tongue] = = 6 = = =', 'mouth')?.words).toBe(
      'The embouchure is switched 2 times, 1 within a beat.',
    );
    expect(part(slow('4 5 6 5'), 'mouth')).toBeUndefined();
  });

  it('breath counts the air of the longest stretch, and points at its beginning', () => {
    expect(part(slow('4 -4 -4 -4 | -4 -4 -4 -4 | -4 4 . .'), 'breath')).toMatchObject({
      points: 0.3,
      words: 'Up to 8 seconds on the draw without a turn: very roughly 1.6 litres of air.',
      at: 1,
    });
  });

  it('marks count each kind once', () => {
    expect(part(slow('4[dip] 5[fall] 6[dip] .'), 'marks')).toMatchObject({
      points: 0.4,
      words: 'Marks to play: dip, fall.',
    });
    expect(part(slow('4[dip] 5[fall] 6[vibrato] 5[accent]'), 'marks')?.points).toBe(0.7);
    expect(part(slow('4 5 6 5'), 'marks')).toBeUndefined();
  });
});
