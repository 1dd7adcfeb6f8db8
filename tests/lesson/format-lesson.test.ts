import { describe, expect, test } from 'vitest';
import { formatLesson } from '../../src/lesson/format-lesson.ts';

const fence = (...lines: readonly string[]): string => ['```tab', ...lines, '```', ''].join('\n');

describe('a lesson with its blocks in their clean form', () => {
  test('keeps everything around them', () => {
    const lesson = (block: string): string =>
      `---\ntitle:   A lesson \n---\n\n\n# Heading  \n${block}\n\n\n4   5 |  6 7  \n\n\`\`\`text\n4   5\n\`\`\``;
    const { text, left } = formatLesson(lesson(fence('', '4   5|6 =', '', '')));
    expect(text).toBe(lesson(fence('4 5 |6 =')));
    expect(left).toEqual([]);
  });
  test('keeps what a list or a quotation puts before each line', () => {
    expect(formatLesson('- A list:\n\n  ```tab\n  slot:1/4\n\n\n  4   5 6 7 |]\n  ```\n').text).toBe(
      '- A list:\n\n  ```tab\n  slot: 1/4\n\n  4 5 6 7 |]\n  ```\n',
    );
    expect(formatLesson('> ~~~~ tab\n> slot:1/4\n>\n> \n> 4   5 6 7 |]\n> ~~~~\n').text).toBe(
      '> ~~~~ tab\n> slot: 1/4\n>\n> 4 5 6 7 |]\n> ~~~~\n',
    );
  });
  test('leaves no space at the end of an empty line in a quotation', () => {
    expect(formatLesson('> ```tab\n> slot: 1/4\n> \n> 4 5 6 7 |]\n> ```\n').text).toBe(
      '> ```tab\n> slot: 1/4\n>\n> 4 5 6 7 |]\n> ```\n',
    );
  });
  test('keeps its line breaks', () => {
    expect(formatLesson('Words.\r\n\r\n```tab\r\n4   5\r\n6 7 | 4 =3\r\n```\r\n').text).toBe(
      'Words.\r\n\r\n```tab\r\n4 5 6 7 | 4 =3\r\n```\r\n',
    );
  });
  test('leaves blocks with errors as they are, and says where and how many', () => {
    const wrong = fence('id: walk', '4  5   x  y');
    const open = '```tab\n4   5';
    const source = `${wrong}\n${fence('4   5')}\n${fence('4  6')}\n${open}`;
    const { text, left } = formatLesson(source, (index) => (index === 2 ? 3 : 0));
    expect(text).toBe(`${wrong}\n${fence('4 5')}\n${fence('4  6')}\n${open}`);
    expect(left).toEqual([
      { at: { line: 1, column: 1 }, id: 'walk', errors: 1 },
      { at: { line: 10, column: 1 }, id: undefined, errors: 3 },
      { at: { line: 14, column: 1 }, id: undefined, errors: 1 },
    ]);
  });
});
