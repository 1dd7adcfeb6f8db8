/** The same music on a harp of another tuning: the tune stays, its holes are found, and what the harp has not got is named. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { songKey } from '../../../src/harmony/key.ts';
import { type Harp, keyNote, readHarp } from '../../../src/instrument/harp.ts';
import { printedPitch } from '../../../src/instrument/pitch.ts';
import { tabOfNotes } from '../../../src/instrument/playable.ts';
import { TUNINGS } from '../../../src/instrument/tuning.ts';
import { printScore } from '../../../src/notation/print/print.ts';
import { readBlock } from '../../../src/notation/read.ts';
import { moveToHarp } from '../../../src/score/harp/move.ts';
import { relocate } from '../../../src/score/harp/relocate.ts';
import { graceAmong } from '../../../src/score/mark.ts';
import { isSoundEvent, midiOfGrace, soundsOf } from '../../../src/score/queries.ts';
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

describe('notes that sound together', () => {
  const tongue = (music: string, tuning: string) => moved(`slot: 1/4\nmouth: tongue\n\n${music}`, 'C', tuning);
  const mouths = ({ score }: { score: Score }) => soundsOf(score).map(({ mouth }) => mouth);

  test('are as many as one breath gives, with the highest among them', () => {
    const lips = moved('slot: 1/4\n\n-(1 2 3 4) (1 2 3) . .', 'C', 'solo-chromatic');
    expect([lips.tab, lips.missing]).toEqual(['-(4 5) (1 2 3)', ['1: D4 G4 B4 D5 -> B4 D5']]);
    const { tab, missing } = tongue('(1 2 4 5) -(1 2 4) . .', 'solo-chromatic');
    expect([tab, missing]).toEqual(['(2 4 6) -(1 5)', ['1: C4 E4 C5 E5 -> E4 C5 E5', '1: D4 G4 D5 -> D4 D5']]);
  });
  test('stay side by side for the lips, and may be apart for the tongue', () => {
    const lips = moved('slot: 1/4\n\n-(3 4 5) (4 5) . .', 'C', 'solo-chromatic');
    expect([lips.tab, mouths(lips)]).toEqual(['-(4 5 6) (5 6)', ['lips', 'lips']]);
    const apart = tongue('(1 4) -(1 4) -(3 6) 4', 'solo-chromatic');
    expect([apart.tab.split(' -')[0], apart.missing]).toEqual(['(1 4)', []]);
    expect(mouths(apart)).toEqual(['tongue', 'tongue', 'tongue', 'tongue']);
  });
  test('are the highest of them alone where no breath gives two', () => {
    const { tab, missing } = tongue('(1 4) (2 5) . .', 'natural-minor');
    expect([tab, missing]).toEqual(["(1 4) -5'", ['1: E4 E5 -> E5']]);
  });
});

describe('what goes on over several notes', () => {
  test('a note that is held on keeps its holes, and is named once', () => {
    const { tab, missing } = moved('slot: 1/4\n\n-3q = = = | = -4q = . |]', 'C', 'solo-chromatic');
    expect([tab, missing]).toEqual(['-3* = 4*', ['1: B↓4 -> B♭4', '2: D↓5 -> D♭5']]);
  });
  test('a glide stays where both of its notes are on one breath, and is struck again where they are not', () => {
    expect(moved("slot: 1/4\n\n-2 > -3 > -3' 5", 'C', 'solo-chromatic').tab).toBe('3 -4> -3* 6');
    expect(moved("slot: 1/4\n\n-3' > -3 -4' > -4", 'C', 'natural-minor').tab).toBe("-3 3o -4'> -4");
  });
  test('a glide may go over a bar line', () => {
    expect(moved("slot: 1/4\n\n4 = = -4' > | -4 = = . |]", 'C', 'natural-minor').tab).toBe("4 -4'> -4");
  });
});

describe('marks that name a note', () => {
  test('keep the sound of a grace note', () => {
    const { score } = moved("slot: 1/4\n\n-3[grace -3'] 4[grace -4] -4[grace -3] 5[grace 6]", 'C', 'solo-chromatic');
    const graces = soundsOf(score).map(({ marks }) => graceAmong(marks));
    // B flat, D, B and G.
    expect(graces.map((grace) => grace && midiOfGrace(score.harp, grace))).toEqual([70, 74, 71, 79]);
  });
  test('have the nearest grace note that there is', () => {
    const { score, missing } = moved('slot: 1/4\n\n-3[grace -3q] 4 5 6', 'C', 'solo-chromatic');
    expect(soundsOf(score)[0]?.marks).toEqual([
      { name: 'grace', note: { breath: 'draw', hole: 3, bend: 0, over: false, slide: true } },
    ]);
    // Only the notes of the tune are reported.
    expect(missing).toEqual([]);
  });
  test('have no shake with a hole that is not there', () => {
    const richter = harpOf('C', 'richter');
    const { blow, draw } = richter.tuning;
    /** The same reeds one hole further down or up. */
    const down: Harp = { ...richter, tuning: { ...richter.tuning, blow: blow.slice(1), draw: draw.slice(1) } };
    const up: Harp = {
      ...richter,
      tuning: { ...richter.tuning, blow: [-5, ...blow.slice(0, -1)], draw: [-3, ...draw.slice(0, -1)] },
    };
    const score = scoreOf('slot: 1/4\n\n2[shake 1] 8[shake 9] 9[shake 10] 9[shake 8]');
    const shaken = (harp: Harp) =>
      soundsOf(relocate(score, harp).score).map(
        ({ notes, marks }) =>
          `${itemAt(notes, 0).hole} ${marks.map((mark) => ('hole' in mark ? mark.hole : mark.name)).join()}`,
      );
    expect(shaken(richter)).toEqual(['2 1', '8 9', '9 10', '9 8']);
    expect(shaken(down)).toEqual(['1 ', '7 8', '8 9', '8 7']);
    expect(shaken(up)).toEqual(['3 2', '9 10', '10 ', '10 9']);
  });
  test('leave the other marks as they are', () => {
    const { score } = moved('slot: 1/4\n\n4[accent, grace -4] 5[tenuto] 6 .', 'C', 'natural-minor');
    expect(soundsOf(score).map(({ marks }) => marks.map(({ name }) => name).join())).toEqual([
      'accent,grace',
      'tenuto',
      '',
    ]);
  });
});

test('the mode is that of the tune, whatever the other harp is made for', () => {
  const { score } = moved('position: 2\n\n-2 -3 4 = = = = . | -2 =6 . |]', 'A', 'natural-minor');
  expect([score.key, score.keyNamed]).toEqual([songKey({ letter: 'E', alter: 0 }, 'major'), true]);
  expect(score.bars.map(({ key, keyNamed }) => [key.mode, keyNamed])).toEqual([
    ['major', true],
    ['major', true],
  ]);
});

test('a note that the new harp lacks is none of the same tab on it', () => {
  const chromatic = scoreOf('tuning: solo-chromatic\nslot: 1/4\n\n12 = = =');
  expect(() => moveToHarp(chromatic, harpOf('C', 'richter'))).toThrow(RangeError);
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
