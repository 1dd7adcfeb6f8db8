import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bandOf } from '../../../../src/browser/schedule/band/band.ts';
import { beatKinds, STYLES, styleOf } from '../../../../src/browser/schedule/band/style.ts';
import type { BassCue, ChordCue, Cue, HitCue } from '../../../../src/browser/schedule/cue.ts';
import { roundOf } from '../../../../src/browser/schedule/round.ts';
import { chromaOf } from '../../../../src/instrument/pitch.ts';
import { shareOf } from '../../../../src/time/swing.ts';
import { blockText } from '../../../notation/arbitrary.ts';
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
    expect(hits(cues, 'snare').map(({ at }) => at)).toEqual([1, 3]);
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
      const chord = bar.chords[0];
      const before = playback.bars[index - 1]?.chords[0];
      if (!chord || before?.numeral === chord.numeral) continue;
      expect(notes.find(({ at }) => at === index * 4)?.midi).toBeDefined();
      expect((notes.find(({ at }) => at === index * 4)?.midi ?? 0) % 12).toBe(chromaOf(chord.root));
    }
  });

  test('holds only tones of the chord, and every chord of the form is heard', () => {
    fc.assert(
      fc.property(fc.nat(7), (round) => {
        const playback = playbackFrom(TWELVE);
        const cues = chords(band(TWELVE, round));
        for (const [index, bar] of playback.bars.entries()) {
          const chord = bar.chords[0];
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

  test('fills the last bar of a chorus on the snare, and no other', () => {
    const snare = hits(band(TWELVE), 'snare').filter(({ at }) => at % 4 >= 3);
    const perBar = Array.from({ length: 12 }, (_, bar) => snare.filter(({ at }) => Math.floor(at / 4) === bar).length);
    expect(perBar.slice(0, 11)).toEqual(Array(11).fill(1));
    expect(perBar[11]).toBeGreaterThan(1);
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

  test('keeps the bass below the chords, in every key and block', () => {
    fc.assert(
      fc.property(blockText, fc.nat(4), (text, round) => {
        const cues = band(text, round);
        for (const { midi } of bass(cues)) expect(midi >= 30 && midi <= 55).toBe(true);
        for (const { midis } of chords(cues)) for (const midi of midis) expect(midi >= 53 && midi <= 64).toBe(true);
      }),
    );
  });
});

test('every cell of a style has a known letter in every place', () => {
  for (const { drums, bass, chords, fills } of Object.values(STYLES)) {
    for (const pattern of drums) {
      for (const cells of Object.values(pattern))
        for (const cell of Object.values(cells)) expect(cell).toMatch(/^[.1-9]+$/);
    }
    for (const cell of fills) expect(cell).toMatch(/^[.1-9]+$/);
    for (const pattern of bass) for (const cell of pattern) expect(cell).toMatch(/^[.R35678a]+$/);
    for (const cells of chords) for (const cell of Object.values(cells)) expect(cell).toMatch(/^[.sp-]+$/);
    expect(drums.length).toBeGreaterThan(1);
  }
});
