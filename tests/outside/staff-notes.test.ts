/**
 * Every kind of note and chord, against VexFlow 5.0 (the `vexflow` package), which many programs engrave with: which way its stem
 * goes, which of its heads is on the other side of it, and that its stem is as long.
 */
import { createCanvas } from '@napi-rs/canvas';
import { Element, Stave, StaveNote } from 'vexflow/core';
import { beforeAll, describe, expect, test } from 'vitest';
import { layNote, NO_SLUR, type NoteContent } from '../../src/engrave/staff/note.ts';
import { stemsUp } from '../../src/engrave/staff/stem.ts';
import { itemAt } from '../../src/values/checked.ts';

beforeAll(() => {
  // It measures glyphs to place them side by side; here only their sides and heights are compared.
  Element.setTextMeasurementCanvas(createCanvas(10, 10) as unknown as HTMLCanvasElement);
});

/** Steps above the bottom line of the staff, E4, as VexFlow names them. */
function keyAt(step: number): string {
  const letters = 'cdefgab';
  const number = step + 2 + 4 * 7;
  return `${letters.charAt(number % 7)}/${Math.floor(number / 7)}`;
}

const contentOf = (steps: readonly number[], value: number): NoteContent => ({
  value,
  dots: 0,
  heads: steps.map((step) => ({ y: 40 - 5 * step })),
  marks: [],
  hinted: false,
  endSigns: [],
  tied: false,
  slur: NO_SLUR,
});

function theirs(steps: readonly number[], value: number, up?: boolean) {
  const direction = up === undefined ? { autoStem: true } : { stemDirection: up ? 1 : -1 };
  const note = new StaveNote({ keys: steps.map(keyAt), duration: String(value), ...direction });
  note.setStave(new Stave(0, 0, 200));
  const { topY, baseY } = note.getStemExtents();
  return {
    up: note.getStemDirection() === 1,
    across: steps.flatMap((_, index) => (itemAt(note.noteHeads, index).isDisplaced() ? [index] : [])),
    stem: Math.abs(topY - baseY),
  };
}

const CHORDS: readonly (readonly number[])[] = [
  [0],
  [4],
  [0, 2, 4],
  [0, 7],
  [1, 2],
  [3, 4, 5],
  [2, 3, 6, 7],
  [6, 7],
  [-3, 2],
  [9, 13],
  [4, 5, 7],
];
const STEPS = Array.from({ length: 24 }, (_, index) => index - 7);

describe('a note of the staff, against an independent engraver', () => {
  test('has its stem on the same side at every height', () => {
    for (const step of STEPS) expect(stemsUp([contentOf([step], 4)], []), `${step}`).toEqual([theirs([step], 4).up]);
  });

  test.each(CHORDS.map((steps) => ({ steps })))(
    'of a chord has the same heads across its stem: $steps',
    ({ steps }) => {
      for (const up of [true, false]) {
        const { heads } = layNote(contentOf(steps, 4), up, false);
        const usual = Math.min(...heads.map(({ x }) => (up ? x : -x)));
        const across = heads.flatMap(({ x }, index) => ((up ? x : -x) > usual + 1 ? [index] : []));
        expect(across).toEqual(theirs(steps, 4, up).across);
      }
    },
  );

  test.each([4, 8, 16])('of value %i has a stem as long, or longer where its flag would touch something', (value) => {
    for (const step of STEPS) {
      const note = layNote(contentOf([step], value), stemsUp([contentOf([step], value)], [])[0] === true, false);
      // Theirs is measured from the middle of the head.
      const length = Math.abs((note.stem?.tip ?? 0) - (40 - 5 * step));
      const expected = theirs([step], value).stem;
      expect(length, `${step}`).toBeGreaterThanOrEqual(expected - 0.01);
      expect(length - expected, `${step}`).toBeLessThan(value === 4 ? 0.01 : 6);
    }
  });
});
