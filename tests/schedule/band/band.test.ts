import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainChord } from '../../../src/harmony/chord.ts';
import { FORMS } from '../../../src/harmony/form.ts';
import { chromaOf } from '../../../src/instrument/pitch.ts';
import { bandOf } from '../../../src/schedule/band/band.ts';
import { beatKinds, STYLES, styleOf } from '../../../src/schedule/band/style.ts';
import type { BassCue, ChordCue, Cue, HitCue } from '../../../src/schedule/cue.ts';
import { beatTicks } from '../../../src/schedule/grid.ts';
import { roundOf } from '../../../src/schedule/round.ts';
import {
  chordAtTick,
  isPlayedChord,
  meterOf,
  type Playback,
  type PlayedBar,
  type PlayedChord,
} from '../../../src/score/playback.ts';
import { shareOf } from '../../../src/time/swing.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { blockText } from '../../notation/arbitrary.ts';
import { playbackFrom, SETTINGS } from '../some-block.ts';

/** A quarter is a second, so that times are beats. */
function band(text: string, round = 0, more = {}): Cue[] {
  const playback = playbackFrom(text);
  const settings = { ...SETTINGS, tempo: 60, swing: shareOf(playback.feel), loop: true, ...more };
  return bandOf(playback, settings, roundOf(playback, settings, round));
}
const hits = (cues: readonly Cue[], piece: HitCue['piece']) =>
  cues.filter((cue): cue is HitCue => cue.kind === 'hit' && cue.piece === piece);
const bass = (cues: readonly Cue[]) => cues.filter((cue): cue is BassCue => cue.kind === 'bass');
const chords = (cues: readonly Cue[]) => cues.filter((cue): cue is ChordCue => cue.kind === 'chord');

const BAR = '4 4 4 4 4 4 4 4';
const TWELVE = `position: 2\nform: twelve-bar\n${Array(12).fill(BAR).join(' | ')}`;

describe('the band', () => {
  test('has a style for every feel and meter', () => {
    expect(styleOf({ beats: 4, unit: 4 }, 0.5)).toBe('straight');
    expect(styleOf({ beats: 4, unit: 4 }, 2 / 3)).toBe('shuffle');
    expect(styleOf({ beats: 12, unit: 8 }, 2 / 3)).toBe('slow');
    expect(styleOf({ beats: 7, unit: 8 }, 0.5)).toBe('fast-beat');
  });

  test('groups the beats of a bar', () => {
    const kinds = (beats: number, unit: 4 | 8) => beatKinds({ beats, unit }).join(' ');
    expect(kinds(4, 4)).toBe('one back strong back');
    expect(kinds(3, 4)).toBe('one weak weak');
    expect(kinds(5, 4)).toBe('one back strong weak weak');
    expect(kinds(12, 8)).toBe('one back strong back');
    expect(kinds(2, 4)).toBe('one back');
  });

  test('puts the kick on one and the snare on the back beats', () => {
    const cues = band(`chords: I7\n${BAR}`);
    expect(hits(cues, 'kick')[0]?.at).toBe(0);
    const loud = hits(cues, 'snare').filter(({ level }) => level > 0.5);
    expect(loud.map(({ at }) => at)).toEqual([1, 3]);
  });

  test('swings its eighths in a shuffle and divides slow twelve-eight in three', () => {
    const shuffled = new Set(
      hits(band(`feel: shuffle\nchords: I7\n${BAR}`), 'hat').map(({ at }) => (at % 1).toFixed(4)),
    );
    expect([...shuffled].sort()).toEqual(['0.0000', '0.6667']);
    const slow = new Set(hits(band('meter: 12/8\nchords: I7\n4 =11'), 'hat').map(({ at }) => (at % 1).toFixed(4)));
    expect([...slow].sort()).toEqual(['0.0000', '0.3333', '0.6667']);
  });

  test('plays the root on the first beat of every chord that comes in', () => {
    const playback = playbackFrom(TWELVE);
    const notes = bass(band(TWELVE));
    for (const [index, bar] of playback.bars.entries()) {
      const chord = chordAtTick(bar, 0);
      const barBefore = playback.bars[index - 1];
      const before = barBefore && chordAtTick(barBefore, 0);
      if (!chord || before?.numeral === chord.numeral) continue;
      expect(notes.find(({ at }) => at === index * 4)?.midi).toBeDefined();
      expect((notes.find(({ at }) => at === index * 4)?.midi ?? 0) % 12).toBe(chromaOf(chord.root));
    }
  });

  test('plays the bass of a chord that has one, on the first beat of every bar', () => {
    const text = 'slot: 1/1\ntempo: 60\nchords: C/E | C/E | C/E | F/C | C\n4 | 4 | 4 | 4 | 4';
    for (const round of [0, 1, 2, 3]) {
      const notes = bass(band(text, round));
      const firsts = [0, 1, 2, 3, 4].map((bar) => (notes.find(({ at }) => at === bar * 4)?.midi ?? 0) % 12);
      expect(firsts).toEqual([4, 4, 4, 0, 0]);
    }
  });

  test('leaves bass and chords out where no chord sounds, and drums go on', () => {
    const text = 'slot: 1/4\n"C7" 4 4 "N.C." 4 4 | 4 4 4 4 | "C7" 4 4 4 4';
    for (const round of [0, 1, 2, 3]) {
      const cues = band(text, round);
      const sounding = [...bass(cues), ...chords(cues)];
      expect(sounding.filter(({ at, seconds }) => at < 8 - 1e-9 && at + seconds > 2 + 1e-9)).toEqual([]);
      expect(bass(cues).find(({ at }) => at === 8)?.midi).toBe(36);
      for (const beat of [2, 4, 6])
        expect(cues.some(({ kind, at }) => kind === 'hit' && at >= beat && at < beat + 2)).toBe(true);
    }
  });

  test('holds only tones of the chord, and every chord of the form is heard', () => {
    fc.assert(
      fc.property(fc.nat(7), (round) => {
        const playback = playbackFrom(TWELVE);
        const cues = chords(band(TWELVE, round));
        for (const [index, bar] of playback.bars.entries()) {
          const chord = chordAtTick(bar, 0);
          const inBar = cues.filter(({ at, seconds }) => at < index * 4 + 4 - 1e-9 && at + seconds > index * 4 + 1e-9);
          expect(inBar.length).toBeGreaterThan(0);
          for (const { midis } of inBar) {
            for (const midi of midis) {
              const above = (midi - chromaOf(chord?.root ?? { letter: 'C', alter: 0 }) + 120) % 12;
              expect(chord?.tones).toContain(above);
            }
          }
        }
      }),
    );
  });

  test('changes with a chord in the middle of a bar', () => {
    const cues = band('position: 2\nslot: 1/4\nchords: I7 V7 | IV7\n4 4 4 4 | 4 4 4 4');
    expect(bass(cues).find(({ at }) => at === 2)?.midi).toBe(38);
    const changed = chords(cues).filter(({ at }) => at < 4);
    // G7 over the first half, D7 over the second.
    const tones = (from: number, to: number) =>
      changed.filter(({ at }) => at >= from && at < to).map(({ midis }) => midis);
    expect(tones(0, 2)).toEqual([[53, 59, 62]]);
    expect(tones(2, 4)).toEqual([[54, 57, 60]]);
  });

  test('plays four choruses each in its own way, and each the same again', () => {
    const choruses = [0, 1, 2, 3].map((round) => JSON.stringify(band(TWELVE, round)));
    expect(new Set(choruses).size).toBe(4);
    const shapes = [0, 1, 2, 3].map((round) =>
      bass(band(TWELVE, round))
        .map(({ at, midi }) => `${at}:${midi}`)
        .join(' '),
    );
    expect(new Set(shapes).size).toBe(4);
    expect(JSON.stringify(band(TWELVE, 2))).toBe(choruses[2]);
    expect(JSON.stringify(band(TWELVE, 2, { seed: 5 }))).not.toBe(choruses[2]);
  });

  test('fills the last bar of a chorus on the snare, turns every other fourth bar, and strikes a cymbal on the next one', () => {
    const last = (round: number, more = {}) => {
      const snare = hits(band(TWELVE, round, more), 'snare').filter(({ at }) => at % 4 >= 3);
      return Array.from({ length: 12 }, (_, bar) => snare.filter(({ at }) => Math.floor(at / 4) === bar).length);
    };
    const busy = last(0).map((count) => count > 1);
    expect(busy).toEqual(Array.from({ length: 12 }, (_, bar) => bar % 4 === 3));
    expect(hits(band(TWELVE, 0), 'ride')).toEqual([]);
    const opening = [...hits(band(TWELVE, 2), 'ride'), ...hits(band(TWELVE, 2), 'hat')].filter(({ at }) => at === 0);
    expect(opening.map(({ piece, level }) => [piece, level])).toEqual([['ride', 1]]);
  });

  test('leads nowhere where the music only ends', () => {
    const text = `position: 2\nchords: I7 | V7\nslot: 1/4\n4 4 4 4 | 4 4 4 4`;
    const ends = (loop: boolean) => (bass(band(text, 0, { loop })).at(-1)?.midi ?? 0) % 12;
    // Beside the G that comes again, or on the fifth of D.
    expect([6, 8]).toContain(ends(true));
    expect(ends(false)).toBe(9);
    const snare = (loop: boolean) => hits(band(TWELVE, 0, { loop }), 'snare').filter(({ at }) => at >= 47).length;
    expect([snare(true) > 1, snare(false)]).toEqual([true, 1]);
  });

  test('begins its figure again with every chord that comes in', () => {
    const walk = bass(band(`feel: shuffle\n${TWELVE}`)).map(({ midi }) => midi);
    // G and then C, a bar each: root, third, fifth, sixth.
    expect(walk.slice(0, 4)).toEqual([31, 35, 38, 40]);
    expect(walk.slice(16, 20)).toEqual([36, 40, 43, 45]);
  });

  test('is only drums where a block has no chords', () => {
    const cues = band(BAR);
    expect(hits(cues, 'kick').length).toBeGreaterThan(0);
    expect([...bass(cues), ...chords(cues)]).toEqual([]);
  });

  test('lets the first pickup alone, and finishes the short last bar under the later ones', () => {
    const text = 'chords: I7\nslot: 1/4\npickup: 2\n4 4 | 4 4 4 4 | 4 4';
    expect(band(text, 0).filter(({ at }) => at < 2)).toEqual([]);
    expect(hits(band(text, 1), 'snare')[0]?.at).toBe(1);
  });

  test.each([
    ['straight', TWELVE],
    ['shuffle', `feel: shuffle\n${TWELVE}`],
    ['slow twelve-eight', `meter: 12/8\n${TWELVE.replaceAll(BAR, '4 =11')}`],
    ['three-four', `meter: 3/4\nslot: 1/4\n${TWELVE.replaceAll(BAR, '4 = =')}`],
    ['six-eight', `meter: 6/8\n${TWELVE.replaceAll(BAR, '4 =5')}`],
    ['five-four', `meter: 5/4\nslot: 1/4\n${TWELVE.replaceAll(BAR, '4 =4')}`],
    ['two-four', `meter: 2/4\nslot: 1/4\n${TWELVE.replaceAll(BAR, '4 =')}`],
    ['seven-eight', `meter: 7/8\n${TWELVE.replaceAll(BAR, '4 =6')}`],
  ])('varies over four choruses, with every part in every bar: %s', (_name, text) => {
    const playback = playbackFrom(text);
    const bars = [0, 1, 2, 3].flatMap((number) => {
      const cues = band(text, number);
      const { measures } = roundOf(playback, { ...SETTINGS, tempo: 60, swing: shareOf(playback.feel) }, number);
      return measures.map(({ at, seconds }) =>
        cues
          .filter((cue) => cue.at >= at - 1e-9 && cue.at < at + seconds - 1e-9)
          .map((cue) => ({ ...cue, at: cue.at - at })),
      );
    });
    const drums = bars.map((cues) =>
      cues.flatMap((cue) => (cue.kind === 'hit' ? [`${cue.at.toFixed(3)} ${cue.piece}`] : [])).join(),
    );
    const notes = bars.map((cues) =>
      bass(cues)
        .map(({ at, midi }) => `${at.toFixed(3)} ${midi}`)
        .join(),
    );
    expect(new Set(bars.map((_, bar) => drums[bar] + (notes[bar] ?? ''))).size).toBeGreaterThan(48 / 2);
    // Nothing goes by unchanged for a line of four bars and more.
    for (let bar = 4; bar < 48; bar++) {
      expect(new Set(drums.slice(bar - 4, bar + 1)).size, `drums to bar ${bar + 1}`).toBeGreaterThan(1);
    }
    for (const [bar, cues] of bars.entries()) {
      const kinds = new Set(cues.map(({ kind }) => kind));
      expect(kinds, `bar ${bar + 1}`).toEqual(new Set(['hit', 'bass', 'chord']));
      // Somebody says where one is.
      expect(cues.some(({ at, kind }) => Math.abs(at) < 1e-9 && kind === 'hit')).toBe(true);
    }
  });

  // Half steps above C that the bass walks through in two bars of a shuffle, and that the chords hold.
  test.each([
    ['C', [0, 4, 7, 9, 12, 9, 7, 4], [0, 4, 7]],
    ['C7', [0, 4, 7, 9, 12, 9, 7, 4], [4, 7, 10]],
    ['Cmaj7', [0, 4, 7, 9, 12, 9, 7, 4], [4, 7, 11]],
    ['C6', [0, 4, 7, 9, 12, 9, 7, 4], [4, 7, 9]],
    ['C9', [0, 4, 7, 9, 12, 9, 7, 4], [2, 4, 10]],
    ['Cm', [0, 3, 7, 7, 12, 7, 7, 3], [0, 3, 7]],
    ['Cm7', [0, 3, 7, 10, 12, 10, 7, 3], [3, 7, 10]],
    ['Cm6', [0, 3, 7, 9, 12, 9, 7, 3], [3, 7, 9]],
    ['Cm7b5', [0, 3, 6, 10, 12, 10, 6, 3], [3, 6, 10]],
    ['Cdim', [0, 3, 6, 6, 12, 6, 6, 3], [0, 3, 6]],
    ['Cdim7', [0, 3, 6, 9, 12, 9, 6, 3], [3, 6, 9]],
    ['Caug', [0, 4, 8, 8, 12, 8, 8, 4], [0, 4, 8]],
    ['Csus4', [0, 5, 7, 7, 12, 7, 7, 5], [0, 5, 7]],
    ['C7sus4', [0, 5, 7, 10, 12, 10, 7, 5], [5, 7, 10]],
    ['Csus2', [0, 2, 7, 7, 12, 7, 7, 2], [0, 2, 7]],
    ['C5', [0, 7, 7, 7, 12, 7, 7, 7], [0, 7]],
  ])('plays the tones of %s and no others', (symbol, walk, held) => {
    const cues = band(`feel: shuffle\nchords: ${symbol} | ${symbol}\n${BAR} | ${BAR}`);
    expect(bass(cues).map(({ midi }) => midi - 36)).toEqual(walk);
    for (const { midis } of chords(cues)) {
      expect(midis.map((midi) => midi % 12).sort((a, b) => a - b)).toEqual(held);
    }
  });

  test('holds only tones of the chord of the moment, and walks on them or beside the root that comes: in every block', () => {
    fc.assert(
      fc.property(blockText, fc.nat(4), (text, number) => {
        const playback = playbackFrom(text);
        const settings = { ...SETTINGS, tempo: 60, swing: shareOf(playback.feel), loop: true };
        const round = roundOf(playback, settings, number);
        const stretches = round.measures.flatMap(({ bar, at, grid }) =>
          (playback.bars[bar]?.chords ?? []).map((chord) => ({
            chord,
            from: at + (grid.beat(beatsTo(playback, itemAt(playback.bars, bar), chord.at), 0, 1) ?? grid.seconds),
          })),
        );
        const chordAt = (at: number) => stretches.findLastIndex(({ from }) => from <= at + 1e-6);
        // Bass and chords never play where no chord sounds.
        const soundingAt = (place: number): PlayedChord => {
          const { chord } = itemAt(stretches, place);
          if (!isPlayedChord(chord)) throw new Error(`something sounds in the silence at ${place}`);
          return chord;
        };
        const cues = bandOf(playback, settings, round);
        for (const { at, midis } of chords(cues)) {
          const chord = soundingAt(chordAt(at));
          for (const midi of midis) expect(chord.tones).toContain((midi - chromaOf(chord.root) + 120) % 12);
        }
        for (const { at, midi, seconds } of bass(cues)) {
          const place = chordAt(at);
          const chord = soundingAt(place);
          const following = stretches[place + 1] ?? stretches[0];
          const next = following && isPlayedChord(following.chord) ? following.chord : chord;
          const above = (midi - chromaOf(chord.root) + 120) % 12;
          if (chord.tones.includes(above) || midi % 12 === chromaOf(chord.bass ?? chord.root)) continue;
          const beside = (midi - chromaOf(next.bass ?? next.root) + 120) % 12;
          const leads =
            (beside === 1 || beside === 11) &&
            Math.abs((stretches[place + 1]?.from ?? round.seconds) - at - seconds) < 1e-6;
          // A sixth over a major chord is the boogie's own.
          const sixth = above === 9 && chord.tones.includes(4) && chord.tones.includes(7);
          expect(leads || sixth, `${midi} at ${at} over ${plainChord(chord)}`).toBe(true);
        }
      }),
    );
  });

  test('moves as a hand can: the bass by an octave at most, each chord by less than half of one', () => {
    const names = FORMS.map(({ id, bars }) => ({ id, bars: bars.split('|').length }));
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.constantFrom('G', 'Ab', 'A', 'Bb', 'B', 'C', 'Db', 'D', 'Eb', 'E', 'F', 'F#'),
        fc.constantFrom('feel: straight', 'feel: shuffle', 'meter: 12/8'),
        fc.nat(3),
        ({ id, bars }, harp, feel, round) => {
          const bar = feel.startsWith('meter') ? '4 =11' : '4 =7';
          const cues = band(
            `harp: ${harp}\nposition: 2\nform: ${id}\n${feel}\n${Array(bars).fill(bar).join(' | ')}`,
            round,
          );
          const steps = (tops: readonly number[]) =>
            tops.slice(1).map((top, index) => Math.abs(top - (tops[index] ?? 0)));
          expect(Math.max(...steps(bass(cues).map(({ midi }) => midi)))).toBeLessThanOrEqual(12);
          expect(Math.max(...steps(chords(cues).map(({ midis }) => midis.at(-1) ?? 0)))).toBeLessThanOrEqual(5);
        },
      ),
    );
  });

  test('keeps the bass below the chords, in every key and block', () => {
    fc.assert(
      fc.property(blockText, fc.nat(4), (text, round) => {
        const cues = band(text, round);
        for (const { midi } of bass(cues)) expect(midi >= 28 && midi <= 54).toBe(true);
        for (const { midis } of chords(cues)) for (const midi of midis) expect(midi >= 53 && midi <= 64).toBe(true);
      }),
    );
  });
});

test('every cell of a style has a known letter in every place', () => {
  for (const { drums, bass, chords, fills, turns } of Object.values(STYLES)) {
    for (const pattern of drums) {
      for (const cells of Object.values(pattern))
        for (const cell of Object.values(cells)) expect(cell).toMatch(/^[.1-9]+$/);
    }
    for (const cell of [...fills, ...turns]) expect(cell).toMatch(/^[.1-9]+$/);
    for (const { cells, approach: lead } of bass) {
      for (const cell of cells) expect(cell).toMatch(/^[.R35678]+$/);
      expect(lead).toMatch(/^[.5a]*a[.]*$/);
    }
    for (const cells of chords) for (const cell of Object.values(cells)) expect(cell).toMatch(/^[.sp-]+$/);
    expect(drums.length).toBeGreaterThan(1);
  }
});

/** Beats from where the full bar would start. */
const beatsTo = (playback: Playback, bar: PlayedBar, tick: number): number =>
  ((bar.pickupOffset ?? 0) + tick) / beatTicks(playback, meterOf(playback, bar));
