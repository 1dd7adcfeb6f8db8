import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSoundEvent } from '../../src/score/queries.ts';
import { slursOf } from '../../src/score/slurs.ts';
import { scoreOf } from '../engrave/pictures.ts';
import { blockText } from '../notation/arbitrary.ts';

/** A sign for each event: `(` starts, `)` stops, `-` open on, in that order from the note on. */
function signs(text: string): string[] {
  const score = scoreOf(text);
  const slurs = slursOf(score);
  return score.bars.flatMap(({ events }) =>
    events.map((event) => {
      const slur = slurs.get(event);
      return `${slur?.stops ? ')' : ''}${slur?.starts ? '(' : ''}${slur?.open ? '-' : ''}`;
    }),
  );
}

describe('slurs', () => {
  it('are from the note that a glide leaves to the one it leads into', () => {
    expect(signs("slot: 1/4\n\n-3 > -3' -4 4")).toEqual(['(-', ')', '', '']);
  });

  it('are one over a run of glides', () => {
    expect(signs("slot: 1/4\n\n-4 > -4' > -4 4")).toEqual(['(-', '-', ')', '']);
    expect(signs("slot: 1/4\n\n-4 > -4' -4 > -4'")).toEqual(['(-', ')', '(-', ')']);
  });

  it('go over a note that is held across a bar line and then glides, and end at the attack of the last', () => {
    expect(signs("slot: 1/4\n\n4 5 -4' > -4 | = > -4' = = | = 4 5 4")).toEqual([
      '',
      '',
      '(-',
      '-',
      '-',
      ')',
      '',
      '',
      '',
      '',
    ]);
  });

  it('begin at the end of a held note', () => {
    expect(signs("slot: 1/4\n\n4 5 6 -4 | = > -4' 4 5")).toEqual(['', '', '', '', '(-', ')', '', '']);
  });

  it('start and stop in turn, and are open between', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        const slurs = slursOf(score);
        let open = false;
        for (const event of score.bars.flatMap(({ events }) => events)) {
          const slur = slurs.get(event) ?? { starts: false, stops: false, open: false };
          if (slur.stops) expect(open && !slur.open).toBe(true);
          if (slur.starts) expect(!open && slur.open).toBe(true);
          if (slur.open) expect(isSoundEvent(event)).toBe(true);
          expect(slur.open).toBe((open && !slur.stops) || slur.starts);
          open = slur.open;
        }
        expect(open).toBe(false);
      }),
      { numRuns: 60 },
    );
  });
});
