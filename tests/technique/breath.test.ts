import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type BreathUse, breathOf, COMFORT, tooLong } from '../../src/technique/breath.ts';
import { play } from '../../src/technique/strokes.ts';
import { scoreOf, writtenAt } from './tab.ts';

const breath = (text: string): BreathUse => breathOf(play(scoreOf(`tempo: 60\nslot: 1/4\n${text}`)));

describe('the breath of a block', () => {
  it('is longest where it goes one way, in seconds and very roughly in litres', () => {
    const { longest, turns } = breath('4 4 -4 -4 | -5 -5 4 4');
    expect(longest).toMatchObject({ breath: 'draw', seconds: 4, from: 2, to: 5 });
    expect(longest?.litres).toBeCloseTo(0.8);
    expect(turns).toBe(2);
  });

  it('takes more air through more holes', () => {
    const one = breath('4 . . .').longest?.litres ?? 0;
    const three = breath('(4 5 6) . . .').longest?.litres ?? 0;
    expect(three).toBeGreaterThan(2 * one);
  });

  it('starts again after a rest long enough to breathe in, and continues after a short one', () => {
    expect(breath('-4 -4 -4 -4 | . . -4 -4').longest).toMatchObject({ seconds: 4 });
    expect(breath('-4 -4 -4 -4 | {-4 . -4 -4} -4 -4 -4').longest).toMatchObject({ seconds: 8 });
  });

  it('goes too far where comfort ends, at that very note', () => {
    const text = 'tempo: 60\nslot: 1/4\n-4 -4 -4 -4 | -5 -5 -5 -5 | -6 -6 -3 -3 | -2 = = 4';
    const score = scoreOf(text);
    const found = tooLong(breathOf(play(score)));
    expect(found?.oneWay).toBe(true);
    expect(found?.stretch.litres).toBeGreaterThan(COMFORT.oneWay);
    // Two litres at a fifth of a litre a second are ten seconds: the eleventh note is too much.
    expect(writtenAt(text, score, found?.stretch.tooLongAt ?? -1)).toBe('-3');
    expect(found?.stretch.tooLongAt).toBe(10);
    expect(tooLong(breath('-4 -4 -4 -4 | 4 -4 -4 -4'))).toBeUndefined();
  });

  it('fills the lungs over turns of the breath where one way outweighs the other', () => {
    const bar = '-4 -4 -4 4';
    const found = tooLong(breath(Array(10).fill(bar).join(' | ')));
    expect(found).toMatchObject({ oneWay: false, stretch: { breath: 'draw' } });
    expect(tooLong(breath(Array(10).fill('-4 -4 4 4').join(' | ')))).toBeUndefined();
  });

  it('points at the first event too long, and none where it is not', () => {
    expect(breath('-4 -4 -4 -4').longest).toEqual({ breath: 'draw', seconds: 4, from: 0, to: 3, litres: 0.8 });
    // A tenth second at a fifth of a litre makes two litres, which is not too much yet.
    expect(tooLong(breath('-4 -4 -4 -4 | -4 -4 -4 -4 | -4 -4 4 .'))).toBeUndefined();
    expect(breath('-4 -4 -4 -4 | -4 -4 -4 -4 | -4 -4 -4 -4').longest?.tooLongAt).toBe(10);
    expect(breath('4 4 4 4 | 4 4 4 4 | 4 4 4 4').longest).toMatchObject({ breath: 'blow', tooLongAt: 10, from: 0 });
  });

  it('counts a breath mark as a short rest at the end of its note', () => {
    // A fifth of a second at a litre a second, in which the hole does not sound either.
    expect(breath('-4 -4 -4 -4[breath] | -4 -4 -4 -4').longest?.litres).toBeCloseTo(1.6 - 0.2 - 0.04);
    expect(breath('-4 -4 -4 -4 | -4 -4 -4 -4').longest?.litres).toBeCloseTo(1.6);
    // What is in the lungs after one note can be breathed out at once.
    expect(breath('-4[breath] -4 -4 -4').longest).toMatchObject({ from: 1 });
  });

  it('gives relief for a litre a second of rest', () => {
    expect(breath('-4 -4 -4 -4 | {-4 .} -4 -4 -4').longest?.litres).toBeCloseTo(1);
    expect(breath('(4 5) (4 5) . (4 5)').longest).toMatchObject({ from: 0, to: 1, seconds: 2 });
    expect(breath('(4 5) (4 5) . (4 5)').longest?.litres).toBeCloseTo(0.7);
  });

  it('begins another stretch where what was in the lungs is outweighed', () => {
    expect(breath('-4 4 -4 -4').fullest).toMatchObject({ breath: 'draw', from: 2, to: 3, seconds: 2 });
    expect(breath('-4 -4 4 -4').fullest).toMatchObject({ breath: 'draw', from: 0, to: 1 });
    expect(breath('4 -4 -4 -4').fullest).toMatchObject({ breath: 'draw', from: 2 });
  });

  it('ends with the last part of a note that is held', () => {
    expect(breath('-4 -4 -4 -4 | = = = =').longest).toMatchObject({ from: 0, to: 4, seconds: 8 });
  });

  it('has no stretch in a block of rests', () => {
    expect(breath('. . . .')).toEqual({ longest: undefined, fullest: undefined, turns: 0 });
  });

  it('turns round for the worse by no music played the other way', () => {
    const words = fc.array(fc.constantFrom('4', '-4', '(4 5)', '-(4 5)', '.'), { minLength: 4, maxLength: 40 });
    fc.assert(
      fc.property(words, (played) => {
        const text = (list: readonly string[]) => [...list, ...Array((4 - (list.length % 4)) % 4).fill('.')];
        const bars = (list: readonly string[]) =>
          Array.from({ length: list.length / 4 }, (_, bar) => list.slice(4 * bar, 4 * bar + 4).join(' ')).join(' | ');
        const there = breath(bars(text(played)));
        const back = breath(bars(text(played.map(otherWay))));
        expect(back.longest?.litres).toBe(there.longest?.litres);
        expect(back.turns).toBe(there.turns);
      }),
    );
  });
});

const otherWay = (word: string): string => (word === '.' ? word : word.startsWith('-') ? word.slice(1) : `-${word}`);
