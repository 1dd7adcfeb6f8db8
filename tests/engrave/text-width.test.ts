/** Lines of words. That the widths are the browser's is tested in tests/browser/engraving.page.test.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesOfText, textWidth } from '../../src/engrave/text-width.ts';

describe('lines of a text', () => {
  it('break between words where the width asks for it', () => {
    expect(linesOfText('like a train, far away', 60, 13)).toEqual(['like a', 'train, far', 'away']);
    expect(linesOfText('like a train', 400, 13)).toEqual(['like a train']);
    expect(linesOfText(' ', 400, 13)).toEqual([]);
  });
  it('hold every word in its order, and more than one only where they fit', () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z]{1,12}$/)), fc.integer({ min: 10, max: 300 }), (words, width) => {
        const lines = linesOfText(words.join(' '), width, 13);
        expect(lines.join(' ')).toBe(words.join(' '));
        for (const line of lines) if (line.includes(' ')) expect(textWidth(line, 13)).toBeLessThanOrEqual(width);
      }),
    );
  });
});
