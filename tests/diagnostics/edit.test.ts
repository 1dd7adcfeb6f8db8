import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyEdits, certainly } from '../../src/diagnostics/edit.ts';
import { editsOf, locate, placeOf } from '../../src/diagnostics/place.ts';
import { present } from '../../src/values/checked.ts';

describe('edits of a text', () => {
  test('replace, insert and remove, whatever their order', () => {
    const edits = [
      { span: { from: 8, to: 13 }, text: '3' },
      { span: { from: 0, to: 3 }, text: '' },
      { span: { from: 4, to: 4 }, text: 'and ' },
    ];
    expect(applyEdits('one two three', edits)).toBe(' and two 3');
  });
  test('that overlap, or lie outside of the text, are refused', () => {
    const edit = (from: number, to: number) => ({ span: { from, to }, text: '' });
    expect(() => applyEdits('abcdef', [edit(0, 3), edit(2, 4)])).toThrow(RangeError);
    expect(() => applyEdits('abcdef', [edit(3, 7)])).toThrow(RangeError);
    expect(() => applyEdits('abcdef', [edit(3, 2)])).toThrow(RangeError);
  });
});

describe('the fix of a problem', () => {
  test('is at the same characters in the file, whatever ends its lines', () => {
    const texts = fc.array(fc.constantFrom('a', '😀', '\n', '\r\n', '\r', ' '), { maxLength: 30 });
    fc.assert(
      fc.property(texts, fc.nat(40), fc.nat(40), (parts, one, other) => {
        const text = parts.join('');
        const [from = 0, to = 0] = [one, other].map((at) => Math.min(at, text.length)).sort((a, b) => a - b);
        // Between the two characters of a line end is no place.
        fc.pre([from, to].every((at) => text.slice(at - 1, at + 1) !== '\r\n'));
        const fix = certainly({ from, to }, 'new');
        const problem = locate(
          { code: 'some-code', severity: 'error', message: '', span: { from, to }, fix },
          'a.mdx',
          placeOf(text),
        );
        expect(editsOf(present(problem.fix, 'fix'), text)).toEqual(fix.edits);
      }),
    );
  });
});
