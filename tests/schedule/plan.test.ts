import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countInTo } from '../../src/schedule/count-in.ts';
import type { Cue, LineCue } from '../../src/schedule/cue.ts';
import { momentAt, type Plan, roundPlan } from '../../src/schedule/plan.ts';
import { remainingOf } from '../../src/schedule/remaining.ts';
import { roundOf } from '../../src/schedule/round.ts';
import type { Playback } from '../../src/score/playback.ts';
import { present } from '../../src/values/checked.ts';
import { blockText } from '../notation/arbitrary.ts';
import { playbackFrom, SETTINGS } from './some-block.ts';

const linesOf = (cues: readonly Cue[]): LineCue[] => cues.filter((cue) => cue.kind === 'line');
const linesIn = (text: string, settings = SETTINGS): LineCue[] =>
  linesOf(roundPlan(playbackFrom(text), settings, 0).cues);
const clicks = (cues: readonly Cue[]) =>
  cues.filter((cue) => cue.kind === 'hit' && (cue.piece === 'click' || cue.piece === 'accent'));
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

describe('the tune', () => {
  // A quarter is a second, so that times are beats.
  const second = { ...SETTINGS, tempo: 60 };

  test('sounds what is tied, over a change of chord and a bar line, as one note', () => {
    const lines = linesIn('slot: 1/4\n"I7" 4[vibrato] = "IV7" = = | = = -4 .', second);
    expect(lines.map(({ at, parts }) => [at, parts.map(({ seconds, marks }) => [seconds, ...marks])])).toEqual([
      [0, [[6, 'vibrato']]],
      [6, [[1]]],
    ]);
  });

  test('goes through a glide without a new attack', () => {
    const [line] = linesIn("slot: 1/4\n-3''> -3'> -3 .", second);
    expect(line?.parts.map(({ at, notes }) => [at, notes[0]?.midi])).toEqual([
      [0, 69],
      [1, 70],
      [2, 71],
    ]);
  });

  test('attacks a repeated note again, after a gap', () => {
    const lines = linesIn('slot: 1/4\n4 4 4 4', second);
    expect(lines.map(({ at }) => at)).toEqual([0, 1, 2, 3]);
    expect(lines[0]?.seconds).toBeLessThan(1);
    expect(lines[0]?.seconds).toBeGreaterThan(0.9);
  });

  test('plays a staccato note for half its length', () => {
    expect(linesIn('slot: 1/4\n4[staccato] . . .', second)[0]?.seconds).toBeCloseTo(0.5, 9);
  });

  test('plays a tenuto note up to the next one, and one that is short as well for three quarters of its length', () => {
    const [held, both] = linesIn('slot: 1/4\n4[tenuto] 4[tenuto staccato] 4 .', second);
    expect(held?.seconds).toBe(1);
    expect(both?.seconds).toBeCloseTo(0.75, 9);
  });

  test('takes a breath from the end of a note, a fifth of a second or a third of a short note', () => {
    expect(linesIn('slot: 1/4\n4[breath] . . .', second)[0]?.seconds).toBeCloseTo(0.8, 9);
    expect(linesIn('slot: 1/4\n4[breath] = = = | = = 4 .', second)[0]?.seconds).toBeCloseTo(5.8, 9);
    const [short, next] = linesIn('slot: 1/16\n4[breath tenuto] 4 =14', second);
    expect(short?.seconds).toBeCloseTo(0.25 * (2 / 3), 9);
    expect(next?.at).toBe(0.25);
    expect(linesIn('slot: 1/4\n4[staccato breath] . . .', second)[0]?.seconds).toBeCloseTo(0.5, 9);
  });

  test('ends with the round, though a tie continues after it', () => {
    const lines = linesIn('slot: 1/4\n4 = = = | = = = =', { ...second, range: { first: 0, last: 0 } });
    expect(lines).toHaveLength(1);
    expect((lines[0]?.at ?? 0) + (lines[0]?.seconds ?? 0)).toBeLessThan(4);
  });

  test('is silent in the bars that are left for an answer', () => {
    const lines = linesIn('slot: 1/4\n4 = = = | = = = =', { ...second, trade: true });
    expect(lines.map(({ at }) => at)).toEqual([0, 8]);
  });

  test('is attacked at the start of a loop that begins inside a held note, and shown as attacked', () => {
    const playback = playbackFrom('slot: 1/4\n4 = = = | = = 5 .');
    const held = ({ cues, moments }: Plan) => [linesOf(cues).map(({ at }) => at), moments.map(({ held }) => held)];
    expect(held(roundPlan(playback, second, 0))).toEqual([
      [0, 6],
      [false, true, false, false],
    ]);
    expect(held(roundPlan(playback, { ...second, range: { first: 1, last: 1 } }, 0))).toEqual([
      [0, 2],
      [false, false, false],
    ]);
  });

  test('is not scooped or accented again where playing continues in the middle of a note', () => {
    const [line] = linesIn('slot: 1/4\n4[dip accent vibrato] = = .', second);
    expect(remainingOf(present(line, 'the line cue'), 1)).toMatchObject({ parts: [{ marks: ['vibrato'] }] });
  });

  test('continues from the middle of a line with what is left of it', () => {
    const [line] = linesIn("slot: 1/4\n-3''> -3'> -3 .", second);
    expect(remainingOf(present(line, 'the line cue'), 1.25)).toMatchObject({
      at: 1.25,
      parts: [
        { at: 0, seconds: 0.75 },
        { at: 0.75, seconds: 1 },
      ],
    });
    expect(remainingOf(present(line, 'the line cue'), 3)).toBeUndefined();
  });
});

describe('what is left of a cue in the middle', () => {
  const pad = { kind: 'chord', at: 2, seconds: 4, midis: [60], level: 0.5, touch: 'pad' } as const;

  test('is the rest of a held chord, and nothing of what dies away by itself', () => {
    expect(remainingOf(pad, 3)).toEqual({ ...pad, at: 5, seconds: 1 });
    expect(remainingOf({ ...pad, touch: 'stab' }, 1)).toBeUndefined();
    expect(remainingOf({ kind: 'bass', at: 0, seconds: 1, midi: 40, level: 1 }, 0.5)).toBeUndefined();
    expect(remainingOf({ kind: 'hit', at: 0, piece: 'ride', level: 1 }, 0.1)).toBeUndefined();
  });

  test('ends when the whole would have ended', () => {
    fc.assert(
      fc.property(blockText, fc.double({ min: 0, max: 1, noNaN: true }), (text, share) => {
        for (const cue of roundPlan(playbackFrom(text), { ...SETTINGS, tempo: 60 }, 0).cues) {
          if (!('seconds' in cue)) continue;
          const rest = remainingOf(cue, share * cue.seconds);
          if (rest && 'seconds' in rest) expect(rest.at + rest.seconds).toBeCloseTo(cue.at + cue.seconds, 9);
          if (rest?.kind === 'line') for (const part of rest.parts) expect(part.at).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });
});

describe('a plan', () => {
  const swing = fc.double({ min: 0.5, max: 0.75, noNaN: true });

  test('has everything in order of time and inside its round', () => {
    fc.assert(
      fc.property(blockText, swing, fc.nat(3), (text, swing, number) => {
        const { cues, round, moments } = roundPlan(playbackFrom(text), { ...SETTINGS, swing, loop: true }, number);
        for (const list of [cues, moments]) {
          for (const [index, { at }] of list.entries()) {
            expect(at).toBeGreaterThanOrEqual(list[index - 1]?.at ?? 0);
            expect(at).toBeLessThan(round.seconds);
          }
        }
        for (const cue of cues) {
          if ('seconds' in cue) expect(cue.at + cue.seconds).toBeLessThanOrEqual(round.seconds + 1e-9);
        }
      }),
    );
  });

  test('never sounds two lines of the tune at once', () => {
    fc.assert(
      fc.property(blockText, swing, (text, swing) => {
        const lines = linesOf(roundPlan(playbackFrom(text), { ...SETTINGS, swing }, 0).cues);
        for (const [index, line] of lines.entries()) {
          expect(line.seconds).toBeGreaterThan(0);
          // A tenuto note ends where the next one begins; times are sums of binary fractions.
          expect(line.at + line.seconds).toBeLessThan((lines[index + 1]?.at ?? Number.POSITIVE_INFINITY) + 1e-9);
        }
      }),
    );
  });

  test('shows every event when it sounds', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        // A note with a grace note is shown when that one sounds.
        const playback = playbackFrom(text.replace(/\[grace [^\]]*\]/g, ''));
        const { moments, cues } = roundPlan(playback, SETTINGS, 0);
        const events = playback.order.reduce((sum, bar) => sum + (playback.bars[bar]?.events.length ?? 0), 0);
        expect(moments).toHaveLength(events);
        const shown = new Set(moments.map(({ at }) => at));
        for (const line of linesOf(cues)) expect(shown.has(line.at)).toBe(true);
      }),
    );
  });

  test('puts the second of two eighths where the shuffle says, and keeps every beat', () => {
    fc.assert(
      fc.property(swing, fc.integer({ min: 20, max: 300 }), (share, tempo) => {
        const playback = playbackFrom('4 5 4 5 4 5 4 5 | 4 5 4 5 4 5 4 5');
        const beat = 60 / tempo;
        const lines = linesOf(roundPlan(playback, { ...SETTINGS, tempo, swing: share }, 0).cues);
        expect(lines).toHaveLength(16);
        for (const [index, { at }] of lines.entries())
          expect(at).toBeCloseTo((Math.floor(index / 2) + (index % 2) * share) * beat, 9);
      }),
    );
  });

  test('shows the chords go by in a bar that is left for an answer', () => {
    const playback = playbackFrom('slot: 1/4\nchords: I7 IV7 | V7\n4 = = = | 4 = = =');
    const { moments } = roundPlan(playback, { ...SETTINGS, tempo: 60, trade: true }, 0);
    expect(moments.filter(({ answer }) => answer).map(({ at, bar, tick }) => [at, bar, tick / playback.ticks])).toEqual(
      [
        [4, 0, 0],
        [6, 0, 0.5],
        [12, 1, 0],
      ],
    );
  });

  test('knows at any time what was begun last', () => {
    const { moments } = roundPlan(playbackFrom('slot: 1/4\n4 = 5 .'), { ...SETTINGS, tempo: 60 }, 0);
    expect([0, 1.9, 2, 3.5].map((at) => momentAt(moments, at)?.event)).toEqual([0, 0, 1, 2]);
    expect(momentAt(moments, -0.1)).toBeUndefined();
  });
});

describe('the metronome', () => {
  const beats = (playback: Playback) => clicks(roundPlan(playback, { ...SETTINGS, tempo: 60 }, 0).cues);

  test('clicks on every beat, the first of a bar accented, and never swings', () => {
    const hits = beats(playbackFrom('feel: shuffle\n4 4 4 4 4 4 4 4 | 4 4 4 4 4 4 4 4'));
    expect(hits.map(({ at }) => at)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(hits.map((hit) => hit.kind === 'hit' && hit.piece === 'accent')).toEqual(
      [1, 0, 0, 0, 1, 0, 0, 0].map(Boolean),
    );
  });

  test('clicks the dotted quarters of compound time', () => {
    expect(beats(playbackFrom('meter: 12/8\n4 =11')).map(({ at }) => at)).toEqual([0, 1, 2, 3]);
  });

  test('falls on the beats of the bar that a pickup belongs to', () => {
    const hits = beats(playbackFrom('pickup: 3\n4 4 4 | 4 =7 | 4 =4'));
    expect(hits.map(({ at }) => rounded(at))).toEqual([0.5, 1.5, 2.5, 3.5, 4.5, 5.5, 6.5, 7.5]);
  });
});

describe('the count-in', () => {
  const countFor = (text: string) => {
    const playback = playbackFrom(text);
    const settings = { ...SETTINGS, tempo: 60 };
    return countInTo(playback, roundOf(playback, settings, 0), 0);
  };

  test('is a bar', () => {
    const { seconds, cues } = countFor('slot: 1/4\n4 4 4 4');
    expect(seconds).toBe(4);
    expect(cues.map(({ at, piece }) => [at, piece])).toEqual([
      [0, 'accent'],
      [1, 'click'],
      [2, 'click'],
      [3, 'click'],
    ]);
  });

  test('is two bars of two beats', () => {
    expect(countFor('meter: 6/8\n4 =5').cues).toHaveLength(4);
  });

  test('continues into the bar of a pickup until it comes in', () => {
    const { seconds, cues } = countFor('slot: 1/4\npickup: 1\n4 | 4 4 4 4 | 4 4 4');
    expect(seconds).toBe(7);
    expect(cues).toHaveLength(7);
  });
});
