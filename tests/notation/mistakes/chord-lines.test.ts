/** Lines of chord symbols above the music, as song sheets have them, brought into the music. */
import { describe, expect, test } from 'vitest';
import { applyEdits } from '../../../src/diagnostics/edit.ts';
import { chordsBelow, isChordLine } from '../../../src/notation/mistakes/chord-lines.ts';

describe('a line of chords', () => {
  test.each(['C', 'C G7 Am', 'C | G7 | Am |]', '|: C G7 :|', '"C" G7', "'C' G7", 'IV7 bVI7', 'N.C.'])(
    'is %s',
    (line) => {
      expect(isChordLine(line)).toBe(true);
    },
  );
  test.each(['', '4 5 6', 'C 4', 'C x', '"C" "G7"', '| | |]', '"C" 4', 'verse', '"C"x', 'C G7 |x'])(
    'is not %s',
    (line) => {
      expect(isChordLine(line)).toBe(false);
    },
  );
});

/** The line of music with its chords, and what the fix makes of both lines. */
function brought(chords: string, music: string) {
  const text = `${chords}\n${music}\n`;
  const below = { from: chords.length + 1, to: chords.length + 1 + music.length };
  const found = chordsBelow(text, { from: 0, to: chords.length }, below);
  return found && { line: found.line, certain: found.fix.certain, fixed: applyEdits(text, found.fix.edits) };
}

describe('chords above music', () => {
  test('are each before the slot below it', () => {
    expect(brought('C       G7', '4 5 6 7 -4 5 6 7')).toEqual({
      line: '"C" 4 5 6 7 "G7" -4 5 6 7',
      certain: true,
      fixed: '\n"C" 4 5 6 7 "G7" -4 5 6 7\n',
    });
    expect(brought('    Am   ', '4 5 6 7')?.line).toBe('4 5 "Am" 6 7');
  });
  test('leave the indentation of both lines', () => {
    expect(brought('  C   G7 ', '  4 5 6 7')?.fixed).toBe('   \n  "C" 4 5 "G7" 6 7\n');
  });
  test('are before the nearest slot, the later one of two, and then nothing is certain', () => {
    expect(brought('C    G7', '4 5 6 7')).toMatchObject({ line: '"C" 4 5 6 "G7" 7', certain: false });
    expect(brought('C         G7', '4 5 6 7')).toMatchObject({ line: '"C" 4 5 6 "G7" 7', certain: false });
  });
  test('are certain where there is one, before or at the first slot', () => {
    expect(brought('C', '  4 5 6 7')).toMatchObject({ line: '"C" 4 5 6 7', certain: true });
    expect(brought(' C', '4 5 6 7')).toMatchObject({ certain: false });
    expect(brought('C      G7', '  4    5 6')).toMatchObject({ certain: false });
  });
  test('are one to a bar where both lines have as many bars, wherever they are', () => {
    expect(brought('| C | G7 | C |', '4 5 6 7 | 4 5 6 7 | 4 =3 |]')).toMatchObject({
      line: '"C" 4 5 6 7 | "G7" 4 5 6 7 | "C" 4 =3 |]',
      certain: true,
    });
    expect(brought('"C" | G7', '4 5 | 6 7')?.line).toBe('"C" 4 5 | "G7" 6 7');
  });
  test('are by their columns where a bar has several, or the bars are not as many', () => {
    expect(brought('C   G7  | C', '4 5 6 7 | 4 5 6 7')).toMatchObject({
      line: '"C" 4 5 "G7" 6 7 | "C" 4 5 6 7',
      certain: true,
    });
    expect(brought('C | G7', '4 5 6 7')?.line).toBe('"C" 4 5 "G7" 6 7');
  });
  test('are left alone where two come to one slot', () => {
    expect(brought('C G7', '4         5')).toBeUndefined();
    expect(brought('C G7', '4')).toBeUndefined();
    expect(brought('C G7', '| |')).toBeUndefined();
  });
  test.each(['"F" 4 5', '<lick> 4 5', '{4 5 6}'])(
    'are left alone above music that has more than notes: %s',
    (music) => {
      expect(brought('C G7', music)).toBeUndefined();
    },
  );
});
