/** Signs of marks on the staff: on which side of their note they are, and in which order. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawSigns } from '../../src/engrave/staff/mark-signs.ts';
import { present } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import { glyphsIn, isHead, pictureOf, SAME_BLOCKS } from './pictures.ts';

type Glyphs = ReturnType<typeof glyphsIn>;

const glyphsOf = (text: string, index = 0): Glyphs => glyphsIn(pictureOf(`harp: C\n${text}`).event(index));
const the = (glyphs: Glyphs, code: string): Glyphs[number] =>
  present(
    glyphs.find((glyph) => glyph.code === code),
    code,
  );
const headIn = (glyphs: Glyphs): Glyphs[number] => present(glyphs.find(isHead), 'a head');

const OPENS = 'e0f5';
const CLOSES = 'e0f6';
const COMMA = 'e4ce';

describe('the line of a held note', () => {
  it('is outside of the dot and inside of the accent, away from the stem', () => {
    const sides = ['-7', '8', '-2', '1'].map((tab) => {
      const glyphs = glyphsOf(`slot: 1/4\n${tab}[accent tenuto staccato] . . .`);
      const head = headIn(glyphs).y;
      const from = ['e4a2 e4a3', 'e4a4 e4a5', 'e4a0 e4a1'].map((codes) => {
        const sign = glyphs.find(({ code }) => codes.includes(code));
        return present(sign, codes).y - head;
      });
      const side = Math.sign(from[0] ?? 0);
      expect(from.map((own) => own * side).toSorted((a, b) => a - b)).toEqual(from.map((own) => own * side));
      return side;
    });
    expect(new Set(sides)).toEqual(new Set([-1, 1]));
  });

  it('is in a space on either side of its head, never on a line of the staff or a ledger line', () => {
    for (const up of [true, false])
      for (let y = -40; y <= 80; y += 5) {
        const bars: number[] = [];
        drawSigns({ marks: ['bar'], ys: [y], stemUp: up, left: -6, right: 6 }, 0, (placed) => {
          bars.push(placed.y);
          return '';
        });
        // Ledger lines lead from the staff to the head.
        const isLine = (at: number): boolean => at % 10 === 0 && at >= Math.min(0, y) && at <= Math.max(40, y);
        const nearest = Math.round((bars[0] ?? 0) / 5) * 5;
        expect(isLine(nearest), `head at ${y}, stem ${up ? 'up' : 'down'}`).toBe(false);
        expect((nearest - y) * (up ? 1 : -1)).toBeGreaterThanOrEqual(10);
      }
  });
});

describe('parentheses', () => {
  it('are around the head, and its sign is left of them', () => {
    const glyphs = glyphsOf("slot: 1/4\n-3'[ghost] . . .");
    const [opens, head, closes] = [the(glyphs, OPENS), headIn(glyphs), the(glyphs, CLOSES)];
    expect([opens.y, closes.y]).toEqual([head.y, head.y]);
    expect(the(glyphs, 'e260').x).toBeLessThan(opens.x);
    expect(opens.x).toBeLessThan(head.x);
    expect(closes.x).toBeGreaterThan(head.x);
  });

  it('are one pair around a chord, and are not drawn again where the note is held on', () => {
    const chord = pictureOf('harp: C\nslot: 1/4\n(4 5 6)[ghost] . . .').event(0);
    expect(glyphsIn(chord).filter(({ code }) => code === OPENS)).toEqual([]);
    // Staff and lanes: two, and two for each number.
    const bows = [...chord.querySelectorAll('path.s')].filter((path) => /q/.test(path.getAttribute('d') ?? ''));
    expect(bows.length).toBe(2 + 6);
    const held = pictureOf('harp: C\nslot: 1/4\n. . 4[ghost] = | = . . .');
    expect(glyphsIn(present(held.tiles[1], 'the second bar')).filter(({ code }) => code === OPENS)).toEqual([]);
  });
});

describe('a breath mark', () => {
  it('is above the staff between its note and the next one', () => {
    const text = 'slot: 1/4\n1[breath] 1 10[breath] 10';
    for (const index of [0, 2]) {
      const own = glyphsOf(text, index);
      const comma = the(own, COMMA);
      expect(comma.x).toBeGreaterThan(headIn(own).x);
      expect(comma.x).toBeLessThan(headIn(glyphsOf(text, index + 1)).x);
      expect(comma.y).toBeLessThan(0);
    }
  });

  it('is after the last of the notes that its note is written as', () => {
    const { page } = pictureOf('harp: C\nslot: 1/4\n. . . 4[breath] | = 5 . .');
    const staves = [...page.querySelectorAll('.tile > .ps')];
    expect(staves.map((staff) => glyphsIn(staff).filter(({ code }) => code === COMMA).length)).toEqual([0, 1]);
  });

  it('is drawn once for each note that has one', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, page } = pictureOf(text);
        const asked = score.bars
          .flatMap((bar) => bar.events)
          .filter((event) => event.kind === 'sound' && event.marks.some(({ name }) => name === 'breath'));
        const staves = [...page.querySelectorAll('.tile > .ps')];
        expect(staves.flatMap(glyphsIn).filter(({ code }) => code === COMMA).length).toBe(asked.length);
      }),
      SAME_BLOCKS,
    );
  });
});
