import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createTransport, type PlayState } from '../../src/browser/transport.ts';
import type { Cue } from '../../src/schedule/cue.ts';
import { playbackFrom, SETTINGS } from '../schedule/some-block.ts';
import { cases } from '../setup/long.ts';

interface Heard {
  readonly cue: Cue;
  readonly at: number;
  stopped?: number;
}

/** A stage whose clock is moved by hand. */
function stage(text: string, more = {}) {
  let clock = 10;
  let tick: (() => void) | undefined;
  const heard: Heard[] = [];
  const states: PlayState[] = [];
  const music = { playback: playbackFrom(text), settings: { ...SETTINGS, tempo: 60, ...more } };
  const transport = createTransport(
    {
      now: () => clock,
      sound: (cue, at) => {
        const one: Heard = { cue, at };
        heard.push(one);
        return {
          until: at + ('seconds' in cue ? cue.seconds : 0.1),
          stop: (when) => {
            one.stopped = when;
          },
        };
      },
      shut: () => {},
      open: () => {},
      tick: (call) => {
        tick = call;
        return () => {
          tick = undefined;
        };
      },
    },
    music,
    (state) => states.push(state),
  );
  /** Lets time pass, looking around every `step` seconds. */
  const pass = (seconds: number, step = 0.1): void => {
    const end = clock + seconds;
    while (clock < end - 1e-9) {
      clock = Math.min(end, clock + step);
      tick?.();
    }
  };
  const lines = () =>
    heard.filter(({ cue, stopped, at }) => cue.kind === 'line' && !(stopped !== undefined && stopped <= at));
  return { transport, music, pass, heard, lines, states, now: () => clock, ticking: () => tick !== undefined };
}

const FOUR = 'slot: 1/4\n4 4 4 4 | 5 5 5 5';
const onsets = (times: readonly number[]): number[] =>
  times.map((time) => Math.round((time - (times[0] ?? 0)) * 1e6) / 1e6);

describe('the transport', () => {
  test('plays a block once and stops by itself', () => {
    const { transport, pass, lines, states, ticking } = stage(FOUR);
    transport.play();
    pass(9);
    expect(onsets(lines().map(({ at }) => at))).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(states).toEqual(['playing', 'stopped']);
    expect(ticking()).toBe(false);
  });

  test('loops without a gap', () => {
    const { transport, pass, lines } = stage(FOUR, { loop: true, range: { first: 1, last: 1 } });
    transport.play();
    pass(9.95);
    expect(onsets(lines().map(({ at }) => at)).slice(0, 10)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });

  test('speeds up round by round', () => {
    const { transport, pass, lines } = stage('slot: 1/4\n4 4 4 4', { loop: true, climb: { step: 60, goal: 180 } });
    transport.play();
    pass(8);
    expect(onsets(lines().map(({ at }) => at)).slice(0, 13)).toEqual([
      0, 1, 2, 3, 4, 4.5, 5, 5.5, 6, 6.333333, 6.666667, 7, 7.333333,
    ]);
  });

  test('is not late though the page was busy for a second', () => {
    const { transport, pass, heard, now } = stage(FOUR);
    transport.play();
    pass(1);
    const before = heard.length;
    pass(1, 1);
    for (const { at } of heard.slice(before)) expect(at).toBeGreaterThanOrEqual(now());
  });

  test('leaves out what a page busy for longer has missed, and keeps time after it', () => {
    const { transport, pass, lines } = stage(FOUR);
    transport.play();
    pass(0.5);
    pass(3, 3);
    pass(6);
    const beats = lines().map(({ at }) => (Math.round(((at - 10.06) % 1) * 1e6) / 1e6) % 1);
    // What still sounds is taken up at once, and everything after it is on the beat.
    expect(beats.filter((beat) => beat !== 0).length).toBeLessThanOrEqual(1);
    expect(lines().length).toBeLessThan(8);
  });

  test('counts in before it plays, and says so', () => {
    const { transport, pass, heard, lines, states } = stage(FOUR, { countIn: true });
    transport.play();
    expect(transport.showing(12)).toMatchObject({ counting: true, until: 14.06 });
    pass(4.5);
    expect(heard.slice(0, 4).every(({ cue }) => cue.kind === 'hit')).toBe(true);
    expect(lines()[0]?.at).toBeCloseTo(14.06, 9);
    expect(states).toEqual(['counting', 'playing']);
  });

  test('pauses, and continues from there', () => {
    const { transport, pass, lines, heard, now } = stage('slot: 1/4\n4 5 6 7 | -4 = = =');
    transport.play();
    pass(2.56);
    transport.pause();
    expect(transport.state()).toBe('paused');
    const scheduled = heard.length;
    pass(5);
    expect(heard).toHaveLength(scheduled);
    for (const { at, cue, stopped } of heard) {
      const ended = at + ('seconds' in cue ? cue.seconds : 0.1) <= now() - 5;
      if (!ended) expect(stopped).toBeCloseTo(now() - 5 + 0.02, 6);
    }
    transport.play();
    const resumed = lines().at(-2);
    expect(resumed?.cue.kind === 'line' && resumed.cue.parts[0]?.notes[0]?.hole).toBe(6);
    pass(0.6);
    const next = lines().filter(({ at }) => at > now() - 0.1 && at < now() + 0.1);
    expect(next).toHaveLength(1);
  });

  test('takes a change of tempo on at once, from the place in the music', () => {
    const { transport, music, pass, lines } = stage(FOUR);
    transport.play();
    pass(2.06);
    transport.change({ ...music, settings: { ...music.settings, tempo: 120 } });
    pass(5);
    const later = lines().filter(({ at }) => at > 12.1);
    expect(onsets(later.map(({ at }) => at))).toEqual([0, 0.5, 1, 1.5, 2, 2.5]);
    expect(transport.state()).toBe('stopped');
  });

  test('moves into a loop that is chosen while it plays', () => {
    const { transport, music, pass, now } = stage(FOUR);
    transport.play();
    pass(1);
    transport.change({ ...music, settings: { ...music.settings, loop: true, range: { first: 1, last: 1 } } });
    pass(0.2);
    expect(transport.showing(now())?.moment.bar).toBe(1);
    pass(8);
    expect(transport.showing(now())?.moment.bar).toBe(1);
  });

  test('shows what sounds and what is next, over the end of a round too', () => {
    const { transport, pass, now } = stage('slot: 1/4\n4 = = 5', { loop: true });
    transport.play();
    pass(1);
    expect(transport.showing(now())).toMatchObject({ moment: { event: 0 }, next: { event: 1 }, round: 0 });
    pass(2.5);
    expect(transport.showing(now())).toMatchObject({ moment: { event: 1 }, next: { event: 0 }, round: 0 });
    pass(1);
    expect(transport.showing(now())).toMatchObject({ moment: { event: 0 }, round: 1 });
  });

  test('starts from the beginning after it was stopped', () => {
    const { transport, pass, lines } = stage('slot: 1/4\n4 5 6 7');
    transport.play();
    pass(2.5);
    transport.stop();
    transport.play();
    expect(lines().at(-1)?.cue).toMatchObject({ at: 0, parts: [{ notes: [{ hole: 4 }] }] });
  });

  test('counts in again when something is changed during the count', () => {
    const { transport, music, pass, lines, states } = stage(FOUR, { countIn: true });
    transport.play();
    pass(2);
    transport.change({ ...music, settings: { ...music.settings, tempo: 120 } });
    expect(transport.state()).toBe('counting');
    pass(3);
    expect(lines()[0]?.at).toBeCloseTo(14.06, 9);
    expect(states).toEqual(['counting', 'playing']);
  });

  test('ends where the music has ended, whatever is done while the last stroke rings', () => {
    for (const act of ['pause', 'change'] as const) {
      const { transport, music, pass, lines } = stage('slot: 1/4\n4 5 6 7');
      transport.play();
      pass(4.2);
      expect(transport.state()).toBe('playing');
      if (act === 'pause') transport.pause();
      else transport.change({ ...music, settings: { ...music.settings, tempo: 90 } });
      expect(transport.state()).toBe('stopped');
      pass(2);
      expect(lines()).toHaveLength(4);
    }
  });

  test('is not interrupted by what changes nothing of what sounds', () => {
    const { transport, music, pass, heard, lines } = stage('slot: 1/4\n4 5 6 7');
    transport.play();
    pass(1.5);
    transport.change({ ...music, settings: { ...music.settings, countIn: true } });
    transport.change({ ...music, settings: { ...music.settings, loop: true } });
    pass(6.55);
    expect(heard.filter(({ stopped }) => stopped !== undefined)).toEqual([]);
    expect(onsets(lines().map(({ at }) => at)).slice(0, 8)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
  });

  test('ends with the round that sounds when the loop is let go, though the next one was within reach', () => {
    const { transport, music, pass, lines } = stage('slot: 1/4\n4 5 6 7', { loop: true });
    transport.play();
    pass(3.7);
    transport.change({ ...music, settings: { ...music.settings, loop: false } });
    pass(3);
    expect(transport.state()).toBe('stopped');
    // Four notes, and what was left of the last one after the change.
    expect(lines()).toHaveLength(5);
  });

  test('begins a climb where the student is, not where it would be by now', () => {
    const { transport, music, pass, now } = stage('slot: 1/4\n4 5 6 7', { loop: true });
    transport.play();
    pass(13);
    expect(transport.showing(now())?.round).toBe(3);
    transport.change({ ...music, settings: { ...music.settings, loop: true, climb: { step: 10, goal: 200 } } });
    expect(transport.showing(now() + 0.1)).toMatchObject({ round: 0, tempo: 60 });
    pass(4);
    expect(transport.showing(now())).toMatchObject({ round: 1, tempo: 70 });
    transport.change({ ...music, settings: { ...music.settings, loop: true, climb: { step: 10, goal: 90 } } });
    expect(transport.showing(now() + 0.1)).toMatchObject({ round: 1, tempo: 70 });
  });

  test('counts the rounds of other bars from the first', () => {
    const { transport, music, pass, now } = stage(FOUR, { loop: true, climb: { step: 60, goal: 240 } });
    transport.play();
    pass(9);
    expect(transport.showing(now())).toMatchObject({ round: 1, tempo: 120 });
    const range = { first: 1, last: 1 };
    transport.change({ ...music, settings: { ...music.settings, range } });
    expect(transport.showing(now() + 0.1)).toMatchObject({ round: 0, tempo: 60, moment: { bar: 1 } });
  });

  test('shows where it continues while it is paused or counts in, and nothing once it is stopped', () => {
    const { transport, music, pass, now } = stage(FOUR, { countIn: true });
    expect(transport.showing(now())).toBeUndefined();
    transport.play();
    pass(1);
    expect(transport.showing(now())).toMatchObject({ counting: true, moment: { bar: 0, event: 0 } });
    pass(4.56);
    expect(transport.showing(now())).toMatchObject({ counting: false, moment: { bar: 0, event: 1 } });
    transport.pause();
    pass(3);
    expect(transport.showing(now())).toMatchObject({ counting: false, moment: { bar: 0, event: 1 } });
    transport.change({ ...music, settings: { ...music.settings, range: { first: 1, last: 1 } } });
    expect(transport.showing(now())).toMatchObject({ moment: { bar: 1, event: 0 } });
    transport.stop();
    expect(transport.showing(now())).toBeUndefined();
  });

  test('sounds no two lines at once and nothing after a pause, whatever is done in whatever order', () => {
    const range = fc.option(
      fc.tuple(fc.nat(3), fc.nat(3)).map(([a, b]) => ({ first: Math.min(a, b), last: Math.max(a, b) })),
      { nil: undefined },
    );
    const settings = fc.record({
      tempo: fc.integer({ min: 18, max: 400 }),
      swing: fc.double({ min: 0.5, max: 0.75, noNaN: true }),
      range,
      loop: fc.boolean(),
      countIn: fc.boolean(),
      trade: fc.boolean(),
      climb: fc.option(fc.record({ step: fc.integer({ min: 1, max: 40 }), goal: fc.integer({ min: 18, max: 400 }) }), {
        nil: undefined,
      }),
    });
    const act = fc.oneof(
      fc.constantFrom('play', 'pause', 'stop'),
      settings,
      fc.double({ min: 0, max: 5, noNaN: true }),
    );
    const block =
      "slot: 1/8\npickup: 1\n4 |: 4 = -3'> -3 . 5 {4 5 6} = |1 = = -4 -5 6 6 . 4 :|2 = -4 = = = = = . | 4 =6";
    fc.assert(
      fc.property(fc.array(act, { maxLength: 25 }), (acts) => {
        const { transport, music, pass, heard, now } = stage(block);
        const end = ({ cue, at, stopped }: Heard): number =>
          Math.min(at + ('seconds' in cue ? cue.seconds : 0.1), stopped ?? Number.POSITIVE_INFINITY);
        for (const one of acts) {
          if (typeof one === 'number') pass(one);
          else if (typeof one === 'object') transport.change({ ...music, settings: { ...music.settings, ...one } });
          else transport[one]();
          const silent = transport.state() === 'paused' || transport.state() === 'stopped';
          // A single stroke that is over is not stopped any more.
          if (silent) for (const voice of heard) expect(end(voice)).toBeLessThanOrEqual(now() + 0.35);
          const place = transport.showing(now());
          expect(place === undefined || place.moment.bar < 5).toBe(true);
        }
        const lines = heard.filter((voice) => voice.cue.kind === 'line' && end(voice) > voice.at);
        for (const [index, line] of lines.entries()) {
          // What was stopped fades under the gate, a fiftieth of a second.
          expect(end(line)).toBeLessThanOrEqual((lines[index + 1]?.at ?? Number.POSITIVE_INFINITY) + 0.021);
        }
      }),
      { numRuns: cases(150, 1000) },
    );
  });

  describe('changed at the next bar', () => {
    const THREE = 'slot: 1/4\n4 4 4 4 | 5 5 5 5 | 6 6 6 6';
    const holes = (heard: readonly { cue: Cue; at: number }[]): number[] =>
      heard.flatMap(({ cue }) => (cue.kind === 'line' ? (cue.parts[0]?.notes[0]?.hole ?? 0) : []));

    test('plays the bar to its end as it was, and then goes on with the new notes, without a gap', () => {
      const { transport, music, pass, lines } = stage(THREE);
      transport.play();
      pass(5.2);
      transport.changeAtBar({ ...music, playback: playbackFrom('slot: 1/4\n1 1 1 1 | 2 2 2 2 | 3 3 3 3') });
      pass(9);
      expect(holes(lines())).toEqual([4, 4, 4, 4, 5, 5, 5, 5, 3, 3, 3, 3]);
      expect(onsets(lines().map(({ at }) => at))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
      expect(transport.state()).toBe('stopped');
    });

    test('keeps its loop, also where two saves come within one bar', () => {
      const { transport, music, pass, lines } = stage(THREE, { loop: true, range: { first: 1, last: 1 } });
      transport.play();
      pass(1.2);
      transport.changeAtBar({ ...music, playback: playbackFrom('slot: 1/4\n1 1 1 1 | 2 2 2 2') });
      pass(0.3);
      transport.changeAtBar({ ...music, playback: playbackFrom('slot: 1/4\n1 1 1 1 | 3 3 3 3') });
      pass(7);
      expect(holes(lines()).slice(0, 8)).toEqual([5, 5, 5, 5, 3, 3, 3, 3]);
      expect(onsets(lines().map(({ at }) => at)).slice(0, 8)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    });

    test('begins again where the bar is no longer there', () => {
      const { transport, music, pass, lines } = stage(THREE);
      transport.play();
      pass(5.2);
      transport.changeAtBar({ ...music, playback: playbackFrom('slot: 1/4\n1 1 1 1 | 2 2 2 2') });
      pass(5.5);
      expect(holes(lines())).toEqual([4, 4, 4, 4, 5, 5, 5, 5, 1, 1, 1, 1]);
    });

    test('changes at once while nothing sounds, and pauses at a place of the new music', () => {
      const { transport, music, pass, lines, now } = stage(THREE);
      const next = { ...music, playback: playbackFrom('slot: 1/4\n1 1 1 1 | 2 2 2 2 | 3 3 3 3') };
      transport.changeAtBar(next);
      transport.play();
      pass(0.5);
      expect(holes(lines())[0]).toBe(1);
      transport.changeAtBar(music);
      transport.pause();
      expect(transport.showing(now())?.moment).toMatchObject({ bar: 0 });
      transport.play();
      pass(4);
      expect(holes(lines()).slice(-2)).toEqual([5, 5]);
    });
  });
});
