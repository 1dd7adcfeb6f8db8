/** The forms of a course as they are played along with. */
import { describe, expect, test } from 'vitest';
import { chordsAt } from '../../../src/browser/play-along/chart.ts';
import { printedChord } from '../../../src/harmony/chord.ts';
import { FORMS, type Form } from '../../../src/harmony/form.ts';
import { readPitchClass } from '../../../src/instrument/pitch.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { isPlayedChord, type Playback, playbackOn } from '../../../src/score/playback.ts';
import { chartOf, formsToPlay, METER_NAMES } from '../../../src/site/play-along/forms.ts';

const OWN: Form = { id: 'vamp', title: 'Vamp', bars: 'i | bVII | N.C. | V7 N.C.' };
const COURSE = { tunings: TUNINGS, forms: [...FORMS, OWN] };
const forms = formsToPlay(COURSE);

const inKey = (id: string, meter: string, key: string): Playback => {
  const written = forms.find((form) => form.id === id)?.meters.find((one) => one.meter === meter)?.playback;
  const tonic = readPitchClass(key);
  if (!written || !tonic) throw new Error(`${id} ${meter} ${key}`);
  return playbackOn(written, { ...written.harp, key: tonic });
};
const chordsOf = ({ bars }: Playback): string[] =>
  bars.map(({ chords }) => chords.map((change) => (isPlayedChord(change) ? printedChord(change) : '–')).join(' '));

describe('a form to play along with', () => {
  // The twelve-bar in E, A and B♭ as a songbook prints it: common practice, no source.
  test.each([
    ['E', 'E7 E7 E7 E7 A7 A7 E7 E7 B7 A7 E7 E7'],
    ['A', 'A7 A7 A7 A7 D7 D7 A7 A7 E7 D7 A7 A7'],
    ['Bb', 'B♭7 B♭7 B♭7 B♭7 E♭7 E♭7 B♭7 B♭7 F7 E♭7 B♭7 B♭7'],
  ])('has the chords of its key: %s', (key, chords) => {
    for (const meter of METER_NAMES) expect(chordsOf(inKey('twelve-bar', meter, key)).join(' ')).toBe(chords);
  });

  test('may be a course’s own, with bars without a chord', () => {
    expect(chordsOf(inKey('vamp', '3/4', 'D'))).toEqual(['Dm', 'C', '–', 'A7 –']);
  });

  test('may have any name of its own, without hiding the metronome', () => {
    const named = formsToPlay({ ...COURSE, forms: [{ ...OWN, id: 'metronome' }] });
    expect(named.map(({ id, meters }) => [id, meters[0]?.playback.bars.length])).toEqual([
      ['', 1],
      ['metronome', 4],
    ]);
  });

  test('fills its bars in every meter with rests, and the metronome has one bar without a chord', () => {
    for (const { id, meters } of forms) {
      for (const { meter, playback } of meters) {
        const [over, under] = meter.split('/').map(Number);
        for (const bar of playback.bars) {
          expect(bar.length * (under ?? 0)).toBe(playback.ticks * (over ?? 0));
          expect(bar.events.every(({ notes }) => notes === undefined)).toBe(true);
        }
        expect(playback.form > 0).toBe(id !== '');
      }
    }
    expect(forms[0]?.meters.map(({ playback }) => playback.bars.length)).toEqual([1, 1, 1, 1, 1]);
  });

  test('is drawn as a chart with as many bars', () => {
    expect(chartOf(COURSE, FORMS[0] ?? OWN).bars).toHaveLength(12);
    expect(chartOf(COURSE, OWN).bars.map(({ chords }) => chords.length)).toEqual([1, 1, 1, 2]);
  });
});

describe('the chord of the moment', () => {
  const eight = inKey('eight-bar', '4/4', 'C');
  const named = (bar: number, tick: number) => {
    const { now, next } = chordsAt(eight, { bar, tick });
    return [now, next].map((change) => (change && isPlayedChord(change) ? printedChord(change) : '–'));
  };
  test('is followed by the next other one, round the end of the form', () => {
    expect(named(0, 0)).toEqual(['C7', 'G7']);
    expect(named(2, 0)).toEqual(['F7', 'C7']);
    expect(named(5, 0)).toEqual(['G7', 'F7']);
    expect(named(5, eight.ticks / 2)).toEqual(['F7', 'C7']);
    expect(named(7, 0)).toEqual(['G7', 'C7']);
  });

  test('is none in the metronome', () => {
    expect(chordsAt(inKey('', '4/4', 'C'), { bar: 0, tick: 0 }).next).toBeUndefined();
  });
});
