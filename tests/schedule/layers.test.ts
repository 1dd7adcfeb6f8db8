/** Layers: a phrase heard alone, and the tune without it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LineCue } from '../../src/schedule/cue.ts';
import { type Plan, roundPlan } from '../../src/schedule/plan.ts';
import { type Layer, type PlaySettings, sameRound } from '../../src/schedule/settings.ts';
import type { Playback } from '../../src/score/playback.ts';
import { cases } from '../setup/long.ts';
import { playbackFrom, SETTINGS } from './some-block.ts';

const linesOf = ({ cues }: Plan): LineCue[] => cues.filter((cue) => cue.kind === 'line');
const others = ({ cues }: Plan) => cues.filter((cue) => cue.kind !== 'line');
const planOf = (playback: Playback, settings: PlaySettings, layer?: Layer): Plan =>
  roundPlan(playback, { ...settings, layer }, 0);
const sorted = (lines: readonly LineCue[]): LineCue[] => lines.toSorted((a, b) => a.at - b.at);

const BARS = [
  '<wheel>',
  '<turn>',
  '<turn> | <turn>',
  '-4 = 4 5 4 5 4 =',
  // Held out of a phrase, and glides into one and out of one.
  "= = 4 5 -3' > -3 4 =",
  "4 5 4 5 4 5 4 -3' > | <wheel>",
  '<slide> | -3 = 4 5 4 5 4 =',
  // A grace note sounds with its note.
  "<chirp> | -3[grace -3'] = 4 5 4 5 4 = | <chirp>",
];
/** Bars of riff and lead. */
const riffAndLead = fc
  .array(fc.constantFrom(...BARS), { minLength: 3, maxLength: 8 })
  .map((bars) =>
    [
      'harp: A',
      'position: 2',
      'phrase wheel: -2 -3 -4 -3 . -3 -4 =',
      'phrase turn: -3 5 4 5 4 5 4 =',
      "phrase slide: 4 5 4 5 4 5 4 -3' >",
      'phrase chirp: 5[grace 4] 5 4 5[grace -4] 4 5 4 =',
      `"I7" -3 =7 | <wheel> | ${bars.join(' | ')} |: <wheel> | <turn> :|`,
    ].join('\n'),
  );

describe('a layer', () => {
  test('and the tune without it have together the attacks of the whole tune, and the same lines', () => {
    fc.assert(
      fc.property(riffAndLead, fc.boolean(), fc.boolean(), (text, trade, ranged) => {
        const playback = playbackFrom(text);
        const settings = { ...SETTINGS, trade, range: ranged ? { first: 1, last: 2 } : undefined };
        const whole = planOf(playback, settings);
        expect(playback.phrases?.length).toBeGreaterThan(0);
        for (let phrase = 0; phrase < (playback.phrases?.length ?? 0); phrase++) {
          const alone = planOf(playback, settings, { phrase, heard: 'alone' });
          const without = planOf(playback, settings, { phrase, heard: 'not' });
          expect(sorted([...linesOf(alone), ...linesOf(without)])).toEqual(linesOf(whole));
          for (const plan of [alone, without]) {
            expect(others(plan)).toEqual(others(whole));
            expect(plan.moments).toEqual(whole.moments);
          }
        }
      }),
      { numRuns: cases(30, 300) },
    );
  });

  test('is all occurrences of its phrase, and nothing else', () => {
    const playback = playbackFrom('slot: 1/4\nphrase a: 4 5\n<a> 6 6 | 7 7 <a>');
    const at = (layer: Layer): number[] =>
      linesOf(planOf(playback, { ...SETTINGS, tempo: 60 }, layer)).map(({ at }) => at);
    expect(at({ phrase: 0, heard: 'alone' })).toEqual([0, 1, 6, 7]);
    expect(at({ phrase: 0, heard: 'not' })).toEqual([2, 3, 4, 5]);
  });

  test('that the block does not have leaves the tune as it is', () => {
    const playback = playbackFrom('slot: 1/4\n4 5 6 6');
    const { cues, moments } = planOf(playback, SETTINGS);
    expect(planOf(playback, SETTINGS, { phrase: 3, heard: 'alone' })).toMatchObject({ cues, moments });
  });

  test('is another round, in which the place is kept', () => {
    expect(sameRound(SETTINGS, { ...SETTINGS, layer: { phrase: 0, heard: 'not' } })).toBe(false);
    expect(sameRound(SETTINGS, { ...SETTINGS, layer: undefined })).toBe(true);
  });
});
