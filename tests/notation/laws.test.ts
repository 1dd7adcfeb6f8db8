/** The laws of the tab notation, each for thousands of blocks. */
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stepBetween } from '../../src/harmony/numeral.ts';
import { keyNote, readHarp, reed } from '../../src/instrument/harp.ts';
import { chromaOf, fifthsOf } from '../../src/instrument/pitch.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { printScore } from '../../src/notation/print/print.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import { moveToHarp } from '../../src/score/harp/move.ts';
import { playOrder } from '../../src/score/playing-order.ts';
import { chordAt, isSoundEvent, roleIn, soundsOf } from '../../src/score/queries.ts';
import type { Score } from '../../src/score/score.ts';
import { add, equals, format, subtract, ZERO } from '../../src/time/fraction.ts';
import { barLength } from '../../src/time/meter.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { cases } from '../setup/long.ts';
import { againText, blockText, harpText } from './arbitrary.ts';
import { withoutPlaces } from './without-places.ts';

const scoreOf = (text: string): Score => {
  const { score, diagnostics } = readBlock(text);
  expect(
    diagnostics.filter(({ severity }) => severity === 'error'),
    text,
  ).toEqual([]);
  return present(score, 'the score');
};

describe('law 1: printing and reading are inverse', () => {
  test('a printed score reads back as the same score', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        expect(withoutPlaces(scoreOf(printScore(score)))).toEqual(withoutPlaces(score));
      }),
      { numRuns: cases(80, 6000) },
    );
  });
  test('music quoted from a block with another slot is printed in a slot it can be read in', () => {
    fc.assert(
      fc.property(blockText, fc.constantFrom('1/1', '1/2', '1/4', '3/8'), (quoted, slot) => {
        const tree = parseBlock(quoted);
        const header = quoted.split('\n').filter((line) => /^(meter|pickup):/.test(line));
        const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
        const { score } = readBlock([...header, `slot: ${slot}`, '', '<other/block> |]'].join('\n'), context);
        fc.pre(score !== undefined);
        const again = scoreOf(printScore(present(score, 'the score')));
        const own = present(score, 'the score');
        const inSlots = own.bars.map((bar, index) => ({ ...bar, slot: itemAt(again.bars, index).slot }));
        expect(withoutPlaces(again)).toEqual(withoutPlaces({ ...own, slot: again.slot, bars: inSlots }));
      }),
      { numRuns: cases(40, 2000) },
    );
  });
  test('printing what was printed changes nothing', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const printed = printScore(scoreOf(text));
        expect(printScore(scoreOf(printed))).toBe(printed);
      }),
      { numRuns: cases(40, 4000) },
    );
  });
});

describe('a score', () => {
  test('is plain data: it is the same once it was stored as JSON, and has nothing in it that is not set', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        expect(JSON.parse(JSON.stringify(score))).toStrictEqual(score);
      }),
      { numRuns: cases(40, 2000) },
    );
  });
});

describe('law 2: bars add up', () => {
  test('the events of every bar add up to its length, and full bars to the meter', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        score.bars.forEach((bar, index) => {
          const full = barLength(bar.meter);
          let at = ZERO;
          for (const event of bar.events) {
            expect(event.onset).toEqual(at);
            at = add(at, event.duration);
          }
          expect(at).toEqual(bar.length);
          const short = score.pickup && (index === 0 ? score.pickup : subtract(full, score.pickup));
          expect(equals(bar.length, full) || (short !== undefined && equals(bar.length, short))).toBe(true);
        });
      }),
      { numRuns: cases(40, 4000) },
    );
  });
});

describe('law 3: what sounds is what the reeds give', () => {
  test('every pitch lies where its reed and its bend put it, and is spelled so', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        for (const { breath, notes } of soundsOf(score)) {
          for (const { hole, bend, over, pitch } of notes) {
            const own = reed(score.harp, hole, breath);
            const facing = reed(score.harp, hole, breath === 'blow' ? 'draw' : 'blow');
            expect(pitch.midi).toBe(over ? facing + 1 : own - bend);
            if (bend > 0) expect(pitch.midi).toBeGreaterThan(facing);
            expect(chromaOf(pitch)).toBe(pitch.midi % 12);
            expect(Math.abs(pitch.alter)).toBeLessThanOrEqual(2);
          }
        }
      }),
      { numRuns: cases(40, 4000) },
    );
  });
});

describe('law 4: another harp keeps the tab', () => {
  test('moving keeps every hole and moves every pitch by one interval', () => {
    fc.assert(
      fc.property(blockText, harpText, (text, name) => {
        const score = scoreOf(text);
        const harp = present(readHarp(name, RICHTER), 'the harp');
        const moved = moveToHarp(score, harp);
        const interval = keyNote(harp) - keyNote(score.harp);
        const [before, after] = [soundsOf(score), soundsOf(moved)];
        expect(after.length).toBe(before.length);
        after.forEach((sound, index) => {
          const was = before[index];
          expect(sound.breath).toBe(was?.breath);
          sound.notes.forEach((note, n) => {
            const wasNote = was?.notes[n];
            expect({ ...note, pitch: undefined }).toEqual({ ...wasNote, pitch: undefined });
            expect(note.pitch.midi).toBe((wasNote?.pitch.midi ?? 0) + interval);
          });
        });
      }),
      { numRuns: cases(40, 4000) },
    );
  });
  test('a block moved is the block read for that harp', () => {
    fc.assert(
      fc.property(
        blockText.filter((text) => !/"[A-G]/.test(text)),
        harpText,
        (text, name) => {
          const moved = moveToHarp(scoreOf(text), present(readHarp(name, RICHTER), 'the harp'));
          const read = scoreOf(text.replace(/^harp: .*$/m, `harp: ${name}`));
          expect(withoutPlaces(moved)).toEqual(withoutPlaces(read));
        },
      ),
      { numRuns: cases(40, 4000) },
    );
  });
});

describe('a quotation', () => {
  /** What is heard: each sound in the order of playing, with its pitches, roles and length; ties and rests as they are. */
  const heard = (score: Score): string[] =>
    playOrder(score).flatMap((index) => {
      const bar = itemAt(score.bars, index);
      return bar.events.map((event) => {
        if (!isSoundEvent(event)) return `${format(event.onset)} rest`;
        const notes = event.notes.map((note) => `${note.pitch.midi} ${roleIn(bar, event, note)?.label ?? ''}`);
        const bass = chordAt(bar, event.onset)?.bass;
        const over = bass ? ` over ${chromaOf(bass)}` : '';
        return `${format(event.onset)} ${format(event.duration)} ${event.tied} ${notes.join(', ')}${over}`;
      });
    });
  /** Rests side by side are one silence, however they are cut. */
  const withoutRests = (lines: readonly string[]): string[] => lines.filter((line) => !line.endsWith('rest'));

  test('of a whole block on another harp is the block moved to that harp', () => {
    fc.assert(
      fc.property(blockText, harpText, (text, name) => {
        const quoted = scoreOf(text);
        // A quotation brings changes of meter, feel and tempo. Position and key are those of the place where it is written.
        fc.pre(
          quoted.bars.every(({ position, key }) => position === quoted.position && isDeepStrictEqual(key, quoted.key)),
        );
        // Written out, a bar before the first chord would be played again under the last one.
        const chords = quoted.bars.map((bar) => bar.chords[0]?.onset.n === 0);
        fc.pre(chords.every(Boolean) || quoted.bars.every((bar) => bar.chords.length === 0));
        // A name further from the tonic than bV and #VI is taken for its enharmonic twin, which moves otherwise.
        const fromTonic = quoted.bars.flatMap((bar) =>
          bar.chords.flatMap(({ chord }) =>
            chord === 'none' ? [] : [fifthsOf(chord.root) - fifthsOf(quoted.key.tonic)],
          ),
        );
        fc.pre(fromTonic.every((fifths) => fifths >= -6 && fifths <= 10));
        // Gb7 and F#7 are two chords, and one where both move to C7.
        fc.pre(fromTonic.every((fifths) => !fromTonic.includes(fifths + 12)));
        const tree = parseBlock(text);
        // What is set within its music belongs to a place there.
        const [ownSettings = ''] = text.split('\n\n');
        const header = ownSettings.split('\n').filter((line) => /^(meter|pickup|position|slot):/.test(line));
        const context: ReadContext = { ...ALONE, find: () => ({ tree, context: ALONE }) };
        const { score } = readBlock([`harp: ${name}`, ...header, '', '<other/block> |]'].join('\n'), context);
        // A progression decides the mode even where other chords are written over its first ones.
        fc.pre(score?.key.mode === quoted.key.mode);
        const moved = moveToHarp(quoted, present(readHarp(name, RICHTER), 'the harp'));
        // A name that has to be another one in the new key may stand for another step there. No numeral keeps the step of a chord with a bass.
        const chordsOfMoved = moved.bars.flatMap((bar) => bar.chords.map(({ chord }) => chord));
        const named = chordsOfMoved.flatMap((chord) => (chord === 'none' || !chord.bass ? [] : [chord]));
        fc.pre(named.every(({ root, step }) => stepBetween(moved.key.tonic, root) === step));
        expect(withoutRests(heard(present(score, 'the score')))).toEqual(withoutRests(heard(moved)));
      }),
      { numRuns: cases(40, 1000) },
    );
  });
});

describe('law 5: nothing breaks the reader', () => {
  const rubbish = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 400 }),
    fc.string({
      unit: fc.constantFrom(...`|:'"{}()[]<>@=.#-+ 1234567890o*\n\r\tabVI7phrase part:words:syllables:\u0000“’—`),
      maxLength: 400,
    }),
    fc.tuple(blockText, fc.nat(), fc.nat(20), fc.string({ maxLength: 6 })).map(([text, at, cut, insert]) => {
      const from = at % (text.length + 1);
      return text.slice(0, from) + insert + text.slice(from + cut);
    }),
  );
  test('any text gives a score or says what is wrong with it, inside the text', () => {
    fc.assert(
      fc.property(rubbish, (text) => {
        const { score, diagnostics } = readBlock(text);
        expect(score === undefined).toBe(diagnostics.some(({ severity }) => severity === 'error'));
        for (const { span, message } of diagnostics) {
          expect(span.from).toBeGreaterThanOrEqual(0);
          expect(span.to).toBeGreaterThanOrEqual(span.from);
          expect(span.to).toBeLessThanOrEqual(text.length + 1);
          expect(message).not.toMatch(/undefined|NaN|\[object/);
        }
      }),
      { numRuns: cases(120, 5000) },
    );
  });
  test('what is read of rubbish prints and reads back too', () => {
    fc.assert(
      fc.property(rubbish, (text) => {
        const { score } = readBlock(text);
        if (!score) return;
        expect(withoutPlaces(scoreOf(printScore(score)))).toEqual(withoutPlaces(score));
      }),
      { numRuns: cases(120, 5000) },
    );
  });
  test.each(['slot: 1/4\n4 4 4 4 "F7" | 4 4 4 4', 'slot: 1/4\nchords: I7\npickup: 1\n4 | 4 4 4 "F#7" |]'])(
    'a chord behind the last note of a bar is printed: %j',
    (text) => {
      const score = scoreOf(text);
      expect(withoutPlaces(scoreOf(printScore(score)))).toEqual(withoutPlaces(score));
      expect(printScore(score)).toMatch(/"F#?7"/);
    },
  );
  test('bars that are played again print and read back', () => {
    fc.assert(
      fc.property(againText, (text) => {
        const score = scoreOf(text);
        const printed = printScore(score);
        expect(withoutPlaces(scoreOf(printed))).toEqual(withoutPlaces(score));
        expect(printScore(scoreOf(printed))).toBe(printed);
      }),
      { numRuns: cases(100, 6000) },
    );
  });
  test('an ending that opens a block is printed', () => {
    const score = scoreOf('slot: 1/4\n|1 4 4 4 4 :|2 5 5 5 5 |]');
    expect(withoutPlaces(scoreOf(printScore(score)))).toEqual(withoutPlaces(score));
  });
  test('every sound of a score knows where it was written', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        for (const event of scoreOf(text).bars.flatMap(({ events }) => events)) {
          const written = text.slice(event.source.span.from, event.source.span.to);
          expect(written).toMatch(isSoundEvent(event) ? /^[-+=(\d]/ : /^\./);
        }
      }),
      { numRuns: cases(40, 2000) },
    );
  });
});
