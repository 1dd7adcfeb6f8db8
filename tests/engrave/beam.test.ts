import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LaidBeam, layBeam } from '../../src/engrave/staff/beam.ts';
import { layNote, NO_SLUR, type NoteContent } from '../../src/engrave/staff/note.ts';
import { stemsUp } from '../../src/engrave/staff/stem.ts';
import { itemAt, lastOf } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';

const note = (y: number, value = 8): NoteContent => ({
  value,
  dots: 0,
  heads: [{ y }],
  marks: [],
  hinted: false,
  endSigns: [],
  tied: false,
  slur: NO_SLUR,
});

function beamOver(ys: readonly number[], values: readonly number[] = ys.map(() => 8), step = 30): LaidBeam {
  const contents = ys.map((y, index) => note(y, itemAt(values, index)));
  const members = ys.map((_, index) => index);
  const up = itemAt(stemsUp(contents, [members]), 0);
  const notes = contents.map((content) => layNote(content, up, true));
  return layBeam(
    members,
    notes,
    members.map((index) => 20 + step * index),
  );
}

const slopeOf = ({ pieces }: LaidBeam): number => {
  const { from, to, fromY, toY } = itemAt(pieces, 0);
  return (toY - fromY) / (to - from);
};

describe('a beam', () => {
  it('is over stems that all go one way and are long enough', () => {
    const ys = fc.array(fc.integer({ min: -6, max: 14 }), { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(ys, fc.constantFrom(8, 16, 32), fc.integer({ min: 18, max: 60 }), (steps, value, step) => {
        const places = steps.map((own) => own * 5);
        const beam = beamOver(
          places,
          places.map(() => value),
          step,
        );
        places.forEach((y, index) => {
          const length = (beam.up ? y - itemAt(beam.stems, index).tip : itemAt(beam.stems, index).tip - y) - 0.01;
          expect(length).toBeGreaterThan(24);
          expect(length + 0.02).toBeGreaterThanOrEqual(25 + 7.5 * (Math.log2(value) - 3));
        });
        expect(Math.abs(slopeOf(beam))).toBeLessThanOrEqual(0.25 + 1e-9);
      }),
      { numRuns: cases(300, 3000) },
    );
  });

  it('follows its notes: rises with them, falls with them, and is level where they end as they began', () => {
    expect(slopeOf(beamOver([35, 25]))).toBeLessThan(0);
    expect(slopeOf(beamOver([0, 10]))).toBeGreaterThan(0);
    expect(slopeOf(beamOver([30, 25, 30]))).toBe(0);
  });

  it('is level where a note between the ends is nearest to it', () => {
    expect(slopeOf(beamOver([35, 20, 30]))).toBe(0);
    expect(slopeOf(beamOver([35, 32.5, 30]))).toBeLessThan(0);
  });

  it('reaches the middle line over notes far from it', () => {
    expect(Math.max(...beamOver([65, 60]).stems.map(({ tip }) => tip))).toBeLessThanOrEqual(20);
    expect(Math.min(...beamOver([-30, -25]).stems.map(({ tip }) => tip))).toBeGreaterThanOrEqual(20);
  });

  it('has a second piece over sixteenths, and a stub for one that is alone', () => {
    const lengths = (values: readonly number[]): number[] =>
      beamOver(
        values.map(() => 30),
        values,
      ).pieces.map(({ from, to }) => Math.round(to - from));
    expect(lengths([16, 16])).toEqual([32, 32]);
    // A stub points to the note it is a part with: back after a longer one, forward at the beginning.
    const [back, forward] = [beamOver([30, 30], [8, 16]), beamOver([30, 30], [16, 8])];
    expect(lengths([8, 16])).toEqual([32, 11]);
    expect(lastOf(back.pieces).to).toBeCloseTo(lastOf(back.pieces).from + 10.75, 1);
    expect(lastOf(forward.pieces).from).toBeCloseTo(itemAt(forward.pieces, 0).from, 1);
  });
});
