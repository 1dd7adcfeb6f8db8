/** The same music on a harp of another tuning: the tune stays, its holes are found, and what the harp has not got is named. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Harp, keyNote, readHarp } from '../../../src/instrument/harp.ts';
import { printedPitch } from '../../../src/instrument/pitch.ts';
import { tabOfNotes } from '../../../src/instrument/playable.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { printScore } from '../../../src/notation/print/print.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { moveToHarp } from '../../../src/score/harp/move.ts';
import { relocate } from '../../../src/score/harp/relocate.ts';
import { isSoundEvent, soundsOf } from '../../../src/score/queries.ts';
import type { Score } from '../../../src/score/score.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { blockText, harpText } from '../../notation/arbitrary.ts';
import { cases } from '../../setup/long.ts';

const harpOf = (name: string, tuning: string): Harp =>
  present(
    readHarp(
      name,
      present(
        TUNINGS.find(({ id }) => id === tuning),
        tuning,
      ),
    ),
    name,
  );

const scoreOf = (text: string): Score => {
  const { score, diagnostics } = readBlock(text);
  expect(
    diagnostics.filter(({ severity }) => severity === 'error'),
    text,
  ).toEqual([]);
  return present(score, 'the score');
};

function moved(text: string, name: string, tuning: string) {
  const { score, replaced } = relocate(scoreOf(text), harpOf(name, tuning));
  const tab = soundsOf(score).map(
    ({ notes, breath, tied, glides }) => (tied ? '=' : tabOfNotes(notes, breath)) + (glides ? '>' : ''),
  );
  const missing = replaced.map(
    ({ bar, wanted, given }) => `${bar}: ${wanted.map(printedPitch).join(' ')} -> ${given.map(printedPitch).join(' ')}`,
  );
  return { tab: tab.join(' '), missing, score };
}

describe('a block on a harp of another tuning', () => {
  test('plays the same pitches from other holes', () => {
    const { tab, missing } = moved("position: 2\n\n-3' = -3 4 -5 = 6 . |]", 'C', 'raised-fifth-draw');
    expect([tab, missing]).toEqual(["-3' -3 4 -5' 6", []]);
  });
  test('needs no bend where a reed has the note', () => {
    expect(moved("position: 2\n\n-2 -3' -3' > -2 -4 = = . |]", 'C', 'natural-minor').tab).toBe('-2 -3 -3> -2 -4');
    expect(moved("-3' -2' -4' 4 = = = . |]", 'C', 'solo-chromatic').tab).toBe('-3* -2* 4* 4');
  });
  test('is in the key that the harp has in that position', () => {
    const { score, tab } = moved('position: 2\nchords: I7\n\n-2 -3 -4 = = = = . |]', 'low F', 'raised-fifth-draw');
    expect(tab).toBe('-2 -3 -4');
    expect(score.key.tonic).toEqual({ letter: 'C', alter: 0 });
    expect(soundsOf(score).map(({ notes }) => printedPitch(itemAt(notes, 0).pitch))[0]).toBe('C4');
  });
  test('names the notes that it has not got, and plays the nearest', () => {
    const { tab, missing } = moved('position: 2\nchords: I7\n\n-2 -3q = -4 = = = . |]', 'C', 'solo-chromatic');
    expect([tab, missing]).toEqual(['3 -3* -5', ['1: B↓4 -> B♭4']]);
  });
  test('keeps the highest note of a chord that no breath gives, and as many of the others as it can', () => {
    const { tab, missing } = moved('-(2 3 4) = = = = = = . |]', 'C', 'natural-minor');
    expect(tab.split(' ')[0]).toBe('-4');
    expect(missing).toEqual(['1: G4 B4 D5 -> D5']);
  });
  test('moves grace notes and shakes with their notes', () => {
    const { tab, score } = moved("position: 2\n\n-3[grace -3'] -4[shake 5] 4 = = = = . |]", 'C', 'solo-chromatic');
    expect(tab).toBe('-4 -5 5');
    expect(
      soundsOf(score)
        .map(({ marks }) => marks)
        .slice(0, 2),
    ).toEqual([
      [{ name: 'grace', note: { breath: 'draw', hole: 3, bend: 0, over: false, slide: true } }],
      [{ name: 'shake', hole: 6 }],
    ]);
  });
});

describe('of any block, on any harp', () => {
  const tunings = fc.constantFrom(...TUNINGS.map(({ id }) => id));
  const runs = { numRuns: cases(30, 3000) };

  test('every pitch is that of the music, as far from the key note, or is named as replaced', () => {
    fc.assert(
      fc.property(blockText, harpText, tunings, (text, name, tuning) => {
        const score = scoreOf(text);
        const harp = harpOf(name, tuning);
        const shift = keyNote(harp) - keyNote(score.harp);
        const { score: other, replaced } = relocate(score, harp);
        const pitches = (one: Score, by: number) =>
          soundsOf(one).map(({ notes, tied }) => ({
            tied,
            midis: notes.map(({ pitch }) => pitch.midi + by).toSorted(),
          }));
        const [wanted, given] = [pitches(score, shift), pitches(other, 0)];
        const different = wanted.filter(
          (own, index) => !own.tied && `${own.midis}` !== `${itemAt(given, index).midis}`,
        );
        expect(replaced.map((one) => `${one.wanted.map(({ midi }) => midi).toSorted()}`)).toEqual(
          different.map(({ midis }) => `${midis}`),
        );
      }),
      runs,
    );
  });
  test('what is played can be written as a block, and read back the same', () => {
    fc.assert(
      fc.property(blockText, harpText, tunings, (text, name, tuning) => {
        const { score } = relocate(scoreOf(text), harpOf(name, tuning));
        // How a chord is spelled in a key far off is the concern of the same tuning as well.
        const played = (one: Score) =>
          soundsOf(one).map(({ breath, notes, tied, glides, mouth, marks }) => ({
            tab: tabOfNotes(notes, breath),
            ...{ tied, glides, mouth, marks },
          }));
        expect(played(scoreOf(printScore(score)))).toEqual(played(score));
      }),
      runs,
    );
  });
  test('times, chords and everything else stay as they are on a harp of the same tuning', () => {
    fc.assert(
      fc.property(blockText, harpText, tunings, (text, name, tuning) => {
        const score = scoreOf(text);
        const plain = (one: Score) => ({
          ...one,
          harp: undefined,
          keyNamed: undefined,
          bars: one.bars.map((bar) => ({
            ...bar,
            keyNamed: undefined,
            events: bar.events.map((event) =>
              isSoundEvent(event)
                ? {
                    ...event,
                    notes: 0,
                    breath: 0,
                    glides: 0,
                    mouth: 0,
                    marks: event.marks.map(({ name: mark }) => mark),
                  }
                : event,
            ),
          })),
        });
        const same = moveToHarp(score, { ...harpOf(name, tuning), tuning: score.harp.tuning });
        const other = plain(relocate(score, harpOf(name, tuning)).score);
        // A shake may have no hole to go to.
        const shaken = JSON.stringify(score).includes('"shake"');
        if (!shaken) expect(other).toEqual(plain(same));
      }),
      runs,
    );
  });
});
