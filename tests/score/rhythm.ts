/** Bars written as durations, for tests: `1/4 r1/8 ~1/8` is a quarter, an eighth rest and an eighth tied to what is before it. */
import type { Bar, Event } from '../../src/score/score.ts';
import { add, type Fraction, fraction, ZERO } from '../../src/time/fraction.ts';

export function rhythm(text: string): Pick<Bar, 'events' | 'length'> {
  let onset: Fraction = ZERO;
  const events = text.split(/\s+/).map((word, index): Event => {
    const match = /^(r|~)?(\d+)\/(\d+)$/.exec(word);
    if (!match) throw new Error(`not a duration: ${word}`);
    const duration = fraction(Number(match[2]), Number(match[3]));
    const timed = { index, onset, duration, source: { span: { from: 0, to: 0 } } };
    onset = add(onset, duration);
    if (match[1] === 'r') return { ...timed, kind: 'rest' };
    return {
      ...timed,
      kind: 'sound',
      breath: 'draw',
      notes: [{ hole: 4, bend: 0, over: false, slide: false, pitch: { letter: 'D', alter: 0, octave: 5, midi: 74 } }],
      tied: match[1] === '~',
      glides: false,
      mouth: 'lips',
      marks: [],
    };
  });
  return { events, length: onset };
}
