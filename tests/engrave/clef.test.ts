import { describe, expect, it } from 'vitest';
import { clefOf } from '../../src/engrave/clef.ts';
import { blockWords } from '../../src/engrave/text-alternative.ts';
import { HARP_KEYS } from '../../src/instrument/harp.ts';
import { plainName } from '../../src/instrument/pitch.ts';
import { headsIn, pictureOf, scoreOf } from './pictures.ts';

const RUN = '1 -1 2 -2 3 -3 4 -4 | 5 -5 6 -6 6 -5 4 . ';
const octaves = (harp: string, music = RUN): number => clefOf(scoreOf(`harp: ${harp}\n${music}`)).octaves;

describe('the clef', () => {
  it.each(['G', 'A', 'Bb', 'C', 'D', 'Eb'])('is the plain treble clef for the lower holes of a harp in %s', (harp) => {
    expect(octaves(harp)).toBe(0);
  });
  it('takes an octave sign for low and high harps', () => {
    expect(octaves('low F', '1 -1 2 -2 3 -3 2 .')).toBe(-1);
    expect(octaves('low D')).toBe(-1);
    expect(octaves('high G')).toBe(1);
  });
  it('takes one for the top of a harp too', () => {
    expect(octaves('C', "8 -8 9 -9 10 -10 10'' 9")).toBe(1);
  });
  it('takes one of two octaves for the top of a high harp, and none that is not clearly better', () => {
    for (const harp of ['high C', 'high D', 'high Eb', 'high F', 'high F#']) {
      expect(octaves(harp, '7 8 -8 9 -9 10 9 .'), harp).toBe(2);
      expect(octaves(harp), harp).toBe(1);
    }
    expect(octaves('F', '7 8 -8 9 -9 10 9 .')).toBe(2);
    expect(octaves('C', '7 8 -8 9 -9 10 9 .')).toBe(1);
  });
  it('keeps notes within four ledger lines wherever a tune lies, and within five over all three octaves, on every harp', () => {
    const registers = ['low ', '', 'high '].flatMap((register) => HARP_KEYS.map((key) => register + plainName(key)));
    const whole = '1 -1 2 -2 3 -3 4 -4 | 5 -5 6 -6 7 -7 8 -8 | 9 -9 10 -10 10 9 8 7';
    for (const harp of registers) {
      for (const music of ['1 -1 2 -2 3 -3 2 .', '4 -4 5 -5 6 -6 5 .', '7 8 -8 9 -9 10 9 .', whole]) {
        const room = music === whole ? 11 : 9;
        const { tiles } = pictureOf(`harp: ${harp}\n\n${music}`);
        for (const tile of tiles) {
          for (const head of headsIn(tile)) {
            expect(head.place, `${harp}: ${music}`).toBeGreaterThanOrEqual(-room);
            expect(head.place, `${harp}: ${music}`).toBeLessThanOrEqual(8 + room);
          }
        }
      }
    }
  });
  it('is described in words where it moves the notes', () => {
    const words = (harp: string, music: string) => {
      const score = scoreOf(`harp: ${harp}\n${music}`);
      return /Everything sounds [^.]*\./.exec(blockWords(score, clefOf(score)))?.[0];
    };
    expect(words('C', RUN)).toBeUndefined();
    expect(words('low F', 'slot: 1/4\n1 -1 2 .')).toBe('Everything sounds an octave lower than the staff has it.');
    expect(words('high G', RUN)).toBe('Everything sounds an octave higher than the staff has it.');
    expect(words('high F', 'slot: 1/4\n8 9 10 .')).toBe('Everything sounds two octaves higher than the staff has it.');
  });
});
