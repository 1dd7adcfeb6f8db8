import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barsToPlay } from '../../src/schedule/order.ts';
import { playbackFrom } from './some-block.ts';

/** Bars of one slot each, named by letters; what is played, as letters. */
function played(music: string, from?: string, to?: string): string {
  const playback = playbackFrom(
    `meter: 1/4\nslot: 1/4\n${music.replace(/[A-Z](?= [A-Z])/g, '4 |').replace(/[A-Z]/g, '4')}`,
  );
  const name = (bar: number): string => String.fromCharCode(65 + bar);
  const index = (letter: string): number => letter.charCodeAt(0) - 65;
  const range = from === undefined || to === undefined ? undefined : { first: index(from), last: index(to) };
  return barsToPlay(playback, range).map(name).join('');
}

describe('the bars to play', () => {
  test('are the whole block with its repeats where nothing is chosen, and where everything is', () => {
    expect(played('A |: B C :| D')).toBe('ABCBCD');
    expect(played('A |: B C :| D', 'A', 'D')).toBe('ABCBCD');
  });

  test('are the chosen bars once, where the choice ends inside a repeat', () => {
    expect(played('|: A B C :| D', 'B', 'C')).toBe('BC');
    expect(played('|: A B C :| D', 'A', 'C')).toBe('ABC');
  });

  test('repeat a section that lies in the choice with what comes after it', () => {
    expect(played('|: A B :| C D', 'A', 'C')).toBe('ABABC');
  });

  test('go through the endings of a section that lies in the choice', () => {
    expect(played('|: A B |1 C :|2 D || E', 'A', 'D')).toBe('ABCABD');
  });

  test('are played as they are where the block never plays them so', () => {
    expect(played('|: A B |1 C :|2 D || E', 'C', 'D')).toBe('CD');
    expect(played('|: A B |1 C :|2 D || E', 'B', 'D')).toBe('BCD');
  });

  test('can be a single bar', () => {
    expect(played('|: A B C :| D', 'C', 'C')).toBe('C');
  });

  test('are every chosen bar at least once, and no other, whatever the repeats', () => {
    const block = playbackFrom('meter: 1/4\nslot: 1/4\n4 |: 4 | 4 |1 4 :|2 4 || 4 |: 4 | 4 :| 4');
    const last = block.bars.length - 1;
    fc.assert(
      fc.property(fc.nat(last), fc.nat(last), (a, b) => {
        const range = { first: Math.min(a, b), last: Math.max(a, b) };
        const chosen = Array.from({ length: range.last - range.first + 1 }, (_, index) => range.first + index);
        expect([...new Set(barsToPlay(block, range))].sort((x, y) => x - y)).toEqual(chosen);
      }),
    );
  });
});
