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
