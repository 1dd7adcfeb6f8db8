import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pointAt } from '../../src/diagnostics/place.ts';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { lesson } from '../course/some-course.ts';
import { cases } from '../setup/long.ts';

/** Each visible character of each block, where its place says it is in the file. */
function misplaced(source: string): string[] {
  const lines = source.split(/\r\n|\r|\n/);
  return readLessonText(source).blocks.flatMap(({ text, placed }) =>
    [...text.matchAll(/[^\s]/g)].flatMap(({ 0: character, index }) => {
      const { line, column } = pointAt(placed, index);
      return lines[line - 1]?.[column - 1] === character ? [] : [`${character} at ${line}:${column}`];
    }),
  );
}

describe('a block’s characters are where its place says', () => {
  test.each([
    ['at the margin', '```tab\n4 -4\n\n  -3\n```\n'],
    ['between tildes', '~~~~tab\n4\n~~~\n5\n~~~~\n'],
    ['in a list', '- words\n\n  ```tab\n  4 -4\n\n    -3\n  ```\n'],
    ['in a numbered list with wide dents', '10. words\n\n    ```tab\n    4\n      5\n    ```\n'],
    ['in a quotation', '> words\n>\n> ```tab\n> 4 -4\n>   -3\n>5\n> ```\n'],
    ['in a quotation in a list', '- > ```tab\n  > 4 -4\n  >  -3\n  > ```\n'],
    ['behind a fence that is set in', '   ```tab\n  4\n    -3\n   5\n   ```\n'],
    ['set in with tabs', '1. words\n\n\t```tab\n\t4\t-4\n\t\t-3\n\t```\n'],
    ['in a component', '<div>\n\n  ```tab\n  4 -4\n  ```\n\n</div>\n'],
    ['behind characters of two units', '- 𝄞 ♭\n\n  ```tab\n  # 𝄞 ♭\n  4 -4\n  ```\n'],
  ])('%s', (_, text) => {
    const source = lesson(text);
    expect(readLessonText(source).blocks.length).toBe(1);
    expect(misplaced(source)).toEqual([]);
    expect(misplaced(source.replaceAll('\n', '\r\n'))).toEqual([]);
    expect(misplaced(source.replaceAll('\n', '\r'))).toEqual([]);
  });

  test('in any nesting of lists and quotations', () => {
    const containers = fc.array(fc.constantFrom('> ', '- ', '1. '), { maxLength: 4 });
    const content = fc.array(fc.constantFrom('4 -4', '  -3 ', '', "-2'' =", ' .', '\t5', '# ♭𝄞', '|'), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(containers, content, fc.constantFrom('\n', '\r\n'), (nest, rows, lineEnd) => {
        const lines = ['```tab', ...rows, '```'].map((row, index) => {
          // A list's mark is in the first line only, and its width in the others.
          const before = nest.map((mark) => (index === 0 || mark.startsWith('>') ? mark : ' '.repeat(mark.length)));
          return before.join('') + row;
        });
        const source = `---\ntitle: A\n---\n\n${lines.join('\n')}\n`.replaceAll('\n', lineEnd);
        const { blocks } = readLessonText(source);
        expect(blocks.map(({ closed }) => closed)).toEqual([true]);
        expect(misplaced(source)).toEqual([]);
      }),
      { numRuns: cases(200, 2000) },
    );
  });
});

describe('a fence', () => {
  const faults = (text: string): string[] => readLessonText(lesson(text)).diagnostics.map(({ code }) => code);

  test.each([
    ['longer than it was opened', '```tab\n4\n`````\n'],
    ['with blanks behind it', '```tab\n4\n```  \n'],
    ['at the very end of the file', '```tab\n4\n```'],
    ['around shorter ones', '````tab\n```\n````\n'],
    ['around nothing', '```tab\n```\n'],
  ])('is closed %s', (_, text) => {
    expect(faults(text)).toEqual([]);
  });
  test.each([
    ['by fewer marks', '````tab\n4\n```\n'],
    ['by the other marks', '```tab\n4\n~~~\n'],
    ['by a mark with words behind it', '```tab\n4\n``` end\n'],
    ['by the end of the list around it', '- ```tab\n  4\n\nwords\n'],
    ['in its own line', '```tab'],
  ])('is not closed %s', (_, text) => {
    expect(faults(text)).toEqual(['fence-unclosed']);
  });
  test('of another language is no block, whatever it holds', () => {
    expect(readLessonText(lesson('```text\n```tab\n```\n')).blocks).toEqual([]);
  });
});
