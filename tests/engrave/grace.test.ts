/** Grace notes on the staff and in the lanes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clefOf } from '../../src/engrave/clef.ts';
import { graceAmong } from '../../src/score/mark.ts';
import { isSoundEvent } from '../../src/score/queries.ts';
import { onStaff } from '../../src/score/spelling.ts';
import { present } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import {
  glyphsIn,
  gracesIn,
  headsIn,
  isHead,
  numbersIn,
  pictureOf,
  placeOf,
  SAME_BLOCKS,
  textsIn,
} from './pictures.ts';

const withGrace = (music: string) => {
  const picture = pictureOf(`harp: C\nposition: 2\nslot: 1/4\n\n${music}`);
  return picture.event(0);
};

describe('a grace note', () => {
  it('is small, left of its note, on the line of its pitch with its sign and its role', () => {
    const event = withGrace('"I7" -3[grace -3\'] = = =');
    const [onStaff] = gracesIn(event);
    const [head] = headsIn(present(onStaff, 'the grace note'));
    // B flat on the middle line, as the note after it, which has a natural.
    expect(head).toMatchObject({ place: 4, sign: -1 });
    expect(headsIn(event)[0]).toMatchObject({ place: 4, sign: 0 });
    expect(present(head, 'its head').x).toBeLessThan(present(headsIn(event)[0], 'the head').x - 15);
    expect(glyphsIn(present(onStaff, 'the grace note')).find(isHead)?.classes).toBe('r3');
  });
  it('is in the lane of its own breath, with its hole, its bend and the label of its role', () => {
    const [, inLanes] = gracesIn(withGrace('"I7" 4[grace -4\'] = = ='));
    const lanes = present(inLanes, 'the grace note');
    expect(numbersIn(lanes).map(({ hole }) => hole)).toEqual(['4']);
    expect(textsIn(lanes, '.l')).toContain('♭5');
    expect(lanes.innerHTML).toContain('scale(0.8)');
    // The stroke is for readers without the staff, where it has one; the number is over it.
    expect(lanes.querySelector('g > path.s.L + use + text.n, g > path.s.L + path + use + text.n')).not.toBeNull();
  });
  it('is no smaller in the lanes than can be read, a number of two characters and one of a quarter step too', () => {
    const scales = ['-3', '10', '-3q'].map((grace) => {
      const [, lanes] = gracesIn(withGrace(`"I7" 4[grace ${grace}] = = =`));
      return /scale\(([.\d]+)\)/.exec(present(lanes, 'the grace note').innerHTML)?.[1];
    });
    expect(scales).toEqual(['0.8', '0.95', '1']);
  });
  it('is drawn once for every grace note of a block, and never for a note that is held on', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const { score, event } = pictureOf(text);
        const { graces } = onStaff(score);
        const octaves = clefOf(score).octaves;
        for (const own of score.bars.flatMap((bar) => bar.events).filter(isSoundEvent)) {
          const drawn = gracesIn(event(own.index));
          const grace = own.tied ? undefined : graceAmong(own.marks);
          expect(drawn).toHaveLength(grace ? 2 : 0);
          if (!grace) continue;
          const staff = present(graces.get(own.index), 'its pitch');
          expect(headsIn(present(drawn[0], 'on the staff'))[0]).toMatchObject({
            place: placeOf(staff.pitch, octaves),
            sign: staff.accidental,
          });
          expect(numbersIn(present(drawn[1], 'in the lanes'))[0]?.hole.replace('q', '')).toBe(`${grace.hole}`);
        }
      }),
      SAME_BLOCKS,
    );
  });
});
