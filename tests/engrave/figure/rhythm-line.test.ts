// @vitest-environment jsdom
import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../../src/engrave/figure/draw.ts';
import { isOnHarp } from '../../../src/engrave/figure/figure.ts';
import { textWidth } from '../../../src/engrave/text-width.ts';
import { playbackOf } from '../../../src/score/playback-of.ts';
import { present } from '../../../src/values/checked.ts';
import { scoreOf } from '../pictures.ts';
import { page, textOf, wellFormed } from './figure-page.ts';

describe('a rhythm line', () => {
  const score = scoreOf('4[accent] = 4 4 {4 4 4}2 . 4 | = = = = . . 4 =');
  const words = ['dum', 'da', 'da', 'a', 'b', 'c', null, 'd', null, null, 'e'];
  const line = { kind: 'rhythm-line', playback: playbackOf(score), syllables: words, title: 'A<b' } as const;
  const drawn = page(drawFigure(line));

  it('says of every bar where its strokes are, how long and how strong', () => {
    const bars = [...drawn.querySelectorAll('li .aloud')].map(textOf);
    expect(bars).toEqual([
      'Bar 1: 1, accented, dum, one beat; 2, da, half a beat; and of 2, da, half a beat; 3, a, a third of a beat; second triplet of 3, b, a third of a beat; third triplet of 3, c, a third of a beat; and of 4, d, half a beat.',
      'Bar 2: held over, two beats; 4, e, one beat.',
    ]);
  });

  it('draws a disc for each stroke, and the count with the struck ones strong', () => {
    expect([...drawn.querySelectorAll('li')].map((bar) => bar.querySelectorAll('circle').length)).toEqual([7, 1]);
    const [first] = drawn.querySelectorAll('svg');
    expect([...present(first, 'a bar').querySelectorAll('.count')].map(textOf).join(' ')).toBe(
      '1 + 2 + 3 trip let 4 +',
    );
    expect([...present(first, 'a bar').querySelectorAll('.count.strong')].map(textOf).join(' ')).toBe(
      '1 2 + 3 trip let +',
    );
    expect(drawn.querySelectorAll('.accent')).toHaveLength(1);
  });

  it('keeps the words of the count apart', () => {
    const [first] = drawn.querySelectorAll('svg');
    const counts = [...present(first, 'a bar').querySelectorAll('.count')].map((count) => {
      const half = textWidth(textOf(count), 14, true) / 2;
      const x = Number(count.getAttribute('x'));
      return { from: x - half, to: x + half };
    });
    for (const [place, { to }] of counts.entries())
      expect(counts[place + 1]?.from ?? Number.POSITIVE_INFINITY).toBeGreaterThan(to + 3);
  });

  it('is on no harp', () => {
    wellFormed(drawFigure(line));
    expect(drawFigure(line)).toContain('A&lt;b');
    expect(isOnHarp(line)).toBe(false);
  });
});
