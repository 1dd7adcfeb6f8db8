/** Grace notes: on the beat, and at once the note they are before. */
import { expect, test } from 'vitest';
import { roundPlan } from '../../src/schedule/plan.ts';
import { playbackFrom, SETTINGS } from './some-block.ts';

/** Each line as the times at which its parts sound and their MIDI numbers. */
const lines = (music: string): string[] => {
  const playback = playbackFrom(`slot: 1/4\n${music}`);
  return roundPlan(playback, { ...SETTINGS, tempo: 60 }, 0).cues.flatMap((cue) =>
    cue.kind === 'line'
      ? [
          cue.parts
            .map(({ at, notes }) => `${Math.round((cue.at + at) * 1000) / 1000} ${notes.map(({ midi }) => midi)}`)
            .join(', '),
        ]
      : [],
  );
};

test('another hole is struck before, on the beat, and the note a moment later', () => {
  expect(lines('4 5[grace 4] 6 7')).toEqual(['0 72', '1 72', '1.07 76', '2 79', '3 84']);
});
test('a bend of the same hole moves into its note on one breath', () => {
  expect(lines("-3[grace -3'] = = =")).toEqual(['0 70, 0.07 71']);
});
test('the other breath of the same hole is struck before', () => {
  expect(lines('4[grace -4] = = =')).toEqual(['0 74', '0.07 72']);
});
test('before a short note it takes a third of it', () => {
  expect(lines('{4[grace 5] 4 4 4 4 4 4 4} . . .').slice(0, 2)).toEqual(['0 76', '0.042 72']);
});
test('a chord has one before it', () => {
  expect(lines('(1 2)[grace 3] = = =')).toEqual(['0 67', '0.07 60,64']);
});
test('the end of a glide with a grace note is struck', () => {
  expect(lines("-3'> -3[grace -4] = =")).toEqual(['0 70', '1 74', '1.07 71']);
});
test('a note that is held on has none', () => {
  expect(lines('"I7" 4[grace 5] "IV7" = = =')).toEqual(['0 76', '0.07 72']);
});
