import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sounding } from '../../src/instrument/bend.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { parseBlock } from '../../src/notation/parse.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import { barAmongAll } from '../../src/score/bar-words.ts';
import { moveToHarp } from '../../src/score/harp/move.ts';
import { chordAtTick, type Playback, playbackOn } from '../../src/score/playback.ts';
import { playbackOf } from '../../src/score/playback-of.ts';
import type { Score } from '../../src/score/score.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { blockText, harpText } from '../notation/arbitrary.ts';

const scoreOf = (text: string): Score => {
  const { score, diagnostics } = readBlock(text);
  if (!score) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return score;
};
const eventsOf = (playback: Playback) => playback.bars.flatMap((bar) => bar.events);

describe('the playback of a score', () => {
  test('keeps times as whole numbers of ticks, equal to the fractions they came from', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const score = scoreOf(text);
        const playback = playbackOf(score);
        const fractions = score.bars.flatMap((bar) => bar.events);
        for (const [index, event] of eventsOf(playback).entries()) {
          const { onset, duration } = itemAt(fractions, index);
          expect(Number.isInteger(event.at) && Number.isInteger(event.length)).toBe(true);
          expect(event.at * onset.d).toBe(onset.n * playback.ticks);
          expect(event.length * duration.d).toBe(duration.n * playback.ticks);
        }
      }),
    );
  });

  test('names the ending of a bar, so that no two bars in endings have one name', () => {
    const { bars } = playbackOf(scoreOf('slot: 1/4\n|: 4 5 6 7 |1,2 4 4 4 4 | 5 5 5 5 :|3 6 6 6 6 | 7 7 7 7 |]'));
    expect(bars.map(barAmongAll)).toEqual([
      'bar 1',
      'bar 2, first and second ending',
      'bar 3, first and second ending',
      'bar 2, third ending',
      'bar 3, third ending',
    ]);
  });

  test('goes through JSON unchanged', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const playback = playbackOf(scoreOf(text));
        expect(JSON.parse(JSON.stringify(playback))).toEqual(playback);
      }),
    );
  });

  test('has every pitch that the harp gives for what is played', () => {
    fc.assert(
      fc.property(blockText, (text) => {
        const playback = playbackOf(scoreOf(text));
        for (const { breath, notes } of eventsOf(playback)) {
          for (const { hole, midi, bend = 0, over = false, slide = false } of notes ?? []) {
            expect(sounding(playback.harp, breath as 'blow', { hole, bend, over, slide })).toEqual({ midi });
          }
        }
      }),
    );
  });

  test('moves to another harp as the score does', () => {
    fc.assert(
      fc.property(blockText, harpText, (text, name) => {
        const score = scoreOf(text);
        const harp = readHarp(name, score.harp.tuning);
        if (!harp) throw new Error(name);
        const moved = playbackOn(playbackOf(score), harp);
        expect(moved).toEqual(playbackOf(moveToHarp(score, harp)));
      }),
    );
  });

  test('says which holes a slap lets sound, and where a shake goes', () => {
    const playback = playbackOf(scoreOf('harp: C\nslot: 1/4\n-4[tongue slap] -4[shake 5] (1 4)[tongue slap] .'));
    const [slap, shake, split] = eventsOf(playback);
    expect(slap?.struck).toEqual([67, 71]);
    expect(shake?.shake).toBe(77);
    expect(shake?.shakeHole).toBe(5);
    expect(split?.struck).toEqual([64, 67]);
  });

  test('has a grace note with what it is over the chord, beside the marks', () => {
    const [graced, bent, slid] = eventsOf(
      playbackOf(scoreOf(`harp: C\nslot: 1/4\n"C7" 4[grace -4'] 5[accent, grace 5] 4 .`)),
    );
    expect(graced?.grace).toEqual({ breath: 'draw', hole: 4, bend: 1, midi: 73, role: '♭9' });
    expect(graced?.marks).toBeUndefined();
    expect([bent?.grace, bent?.marks]).toEqual([{ breath: 'blow', hole: 5, midi: 76, role: '3' }, ['accent']]);
    expect(slid && 'grace' in slid).toBe(false);
  });

  test('has the role of a note only over a chord', () => {
    const [before, over] = eventsOf(playbackOf(scoreOf('harp: C\nslot: 1/4\n4 "C7" 4 . .')));
    expect([before?.notes, over?.notes]).toStrictEqual([[{ hole: 4, midi: 72 }], [{ hole: 4, midi: 72, role: 'R' }]]);
  });

  test('has for a bar what is not as at the start of the block: meter, key, feel, and how fast it is', () => {
    const NOTHING = { meter: undefined, key: undefined, feel: undefined, pace: undefined };
    const bars = (changes: string, more = '') =>
      playbackOf(scoreOf(`harp: C\nslot: 1/4\ntempo: 60\nmeter: 3/4\n4 = = |\n${changes}\n4 = =${more} |]`)).bars.map(
        ({ meter, key, feel, pace }) => ({ meter, key, feel: feel?.name, pace }),
      );
    expect(bars('tempo: 60')).toEqual([NOTHING, NOTHING]);
    expect(bars('meter: 4/4', ' =')).toEqual([NOTHING, { ...NOTHING, meter: { beats: 4, unit: 4 } }]);
    expect(bars('position: 2')).toEqual([NOTHING, { ...NOTHING, key: { position: 2, mode: 'major' } }]);
    expect(bars('key: C minor')).toEqual([NOTHING, { ...NOTHING, key: { position: 1, mode: 'minor' } }]);
    expect(bars('feel: shuffle')).toEqual([NOTHING, { ...NOTHING, feel: 'shuffle' }]);
    expect(bars('tempo: 90')).toEqual([NOTHING, { ...NOTHING, pace: { from: 1.5, to: 1.5 } }]);
    expect(bars('tempo: to 90')).toEqual([NOTHING, { ...NOTHING, pace: { from: 1, to: 1.5 } }]);
  });

  test('has a level only where the music is louder or softer than usual', () => {
    const levels = eventsOf(playbackOf(scoreOf('slot: 1/4\n4 4[p] 4[mf] .'))).map((event) => [
      event.level,
      'level' in event,
    ]);
    expect(levels).toEqual([
      [undefined, false],
      [0.5, true],
      [undefined, false],
      [undefined, false],
    ]);
  });

  test('has a mark, a part or another embouchure only where there is one', () => {
    const playback = playbackOf(scoreOf('slot: 1/4\npart: A\n4 4[accent] @tongue 4 .\npart: B\n4 =3'));
    expect(playback.bars.map(({ part }) => part)).toEqual(['A', 'B']);
    expect(playbackOf(scoreOf('4 =7')).bars.map((bar) => 'part' in bar)).toEqual([false]);
    const [plain, accented, blocked, rest] = eventsOf(playback);
    expect([plain, accented, blocked, rest].map((event) => [event?.marks, event?.mouth, event?.struck])).toEqual([
      [undefined, undefined, undefined],
      [['accent'], undefined, undefined],
      [undefined, 'tongue', undefined],
      [undefined, undefined, undefined],
    ]);
  });

  test('has the chord of each tick of a bar', () => {
    const playback = playbackOf(scoreOf('slot: 1/4\n4 "C7" 4 "F7" 4 4'));
    const { ticks } = playback;
    const at = (tick: number) => chordAtTick(itemAt(playback.bars, 0), tick)?.root.letter;
    expect([0, ticks / 4 - 1, ticks / 4, ticks / 2 - 1, ticks / 2, ticks - 1].map(at)).toEqual([
      undefined,
      undefined,
      'C',
      'C',
      'F',
      'F',
    ]);
  });

  test('leaves before a pickup what it leaves out of its bar', () => {
    const playback = playbackOf(scoreOf('slot: 1/4\npickup: 1\n4 | 4 4 4 4 | 4 4 4'));
    expect(playback.bars.map((bar) => bar.pickupOffset)).toEqual([(playback.ticks * 3) / 4, undefined, undefined]);
  });

  test('names whose music is quoted, once for all its events, and not where a block repeats itself', () => {
    const lick = parseBlock('slot: 1/4\nphrase lick: 4 5\n<lick> <lick>');
    const context: ReadContext = { ...ALONE, find: () => ({ tree: lick, context }) };
    const { score } = readBlock(
      'slot: 1/4\nphrase own: 6 .\n<own> <bends/first:lick> | <bends/first:lick> . .',
      context,
    );
    if (!score) throw new Error('the block should read');
    const playback = playbackOf(score, ({ lesson, phrase }) => `${phrase} of ${lesson}`);
    expect(playback.quotes).toEqual(['lick of bends']);
    expect(eventsOf(playback).map((event) => event.quote)).toEqual([undefined, undefined, 0, 0, 0, 0, undefined]);
  });

  test('names what is quoted by its place, where nobody gives it a better name', () => {
    const tree = parseBlock('slot: 1/4\nphrase lick: 4 5\n<lick> <lick>');
    const context: ReadContext = { ...ALONE, find: () => ({ tree, context }) };
    const quotes = (text: string) =>
      playbackOf(present(readBlock(`slot: 1/4\n${text}`, context).score, 'the score')).quotes;
    expect(quotes('<bends/first:lick> =2')).toEqual(['lick from bends/first']);
    expect(quotes('<bends/first>')).toEqual(['bends/first']);
    expect(quotes('<first:lick> =2')).toEqual(['lick from first']);
  });
});
