/** The author's guide is true: each right example is accepted, and each wrong one gives the message printed below it. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { locate, placeOf, showProblem } from '../../src/diagnostics/place.ts';
import { FORMS } from '../../src/harmony/form.ts';
import { formatBlock } from '../../src/notation/format/format.ts';
import { HEADER_KEYS, parseBlock } from '../../src/notation/parse.ts';
import { ALONE, type ReadContext, readBlock } from '../../src/notation/read.ts';
import { exampleOf, MARK_NAMES, markText, rowOf } from '../../src/score/mark.ts';

const guide = readFileSync(new URL('../../src/notation/guide.md', import.meta.url), 'utf8');

/** The fences of the guide in order, but for the one that shows what a fence looks like. */
const fences = [...guide.replace(/^````md[\s\S]*?^````$/m, '').matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].map(
  ([, kind, text]) => ({ kind, text: (text ?? '').replace(/\n$/, '') }),
);
const examples = fences.flatMap(({ kind, text }, index) => {
  const next = fences[index + 1];
  return kind === 'tab' ? [{ text, message: next?.kind === 'text' ? next.text : undefined }] : [];
});

const blocks = new Map(examples.map(({ text }) => [/^id: (.*)$/m.exec(text)?.[1], parseBlock(text)]));
const context: ReadContext = {
  ...ALONE,
  find: (_lesson, block) => {
    const tree = blocks.get(block);
    return tree ? { tree, context } : { missing: 'block' };
  },
};

describe('the guide', () => {
  test.each(examples)('example: $text', ({ text, message }) => {
    const { score, diagnostics } = readBlock(text, context);
    const said = diagnostics.map((one) => showProblem(locate(one, 'demo.mdx', placeOf(text)), text)).join('\n');
    expect(said).toBe(message ?? '');
    expect(score === undefined).toBe(message !== undefined);
  });
  test('the fence it opens with is a right example too', () => {
    const shown = /^````md\n```tab\n([\s\S]*?)^```$/m.exec(guide)?.[1];
    expect(readBlock(shown ?? '').diagnostics).toEqual([]);
  });
  test('it shows a block and its clean form', () => {
    const [before = '', after = ''] = [
      ...(/^## The clean form[\s\S]*?^## /m.exec(guide)?.[0].matchAll(/^```tab\n([\s\S]*?)^```$/gm) ?? []),
    ].map(([, text = '']) => text.trimEnd());
    expect(formatBlock(before)).toEqual({ lines: after.split('\n') });
  });
  test.each([...HEADER_KEYS])('it explains the setting %s', (key) => {
    expect(guide).toMatch(new RegExp(`^\\| \`${key}\` \\|`, 'm'));
  });
  test.each([...MARK_NAMES])('it explains the mark %s in the words of its row', (mark) => {
    expect(guide).toContain(`| \`${markText(exampleOf(mark))}\` | ${rowOf(mark).asks} |\n`);
  });
  test.each([...FORMS])('it has the chords of the form $id', ({ id, bars }) => {
    expect(guide).toContain(`\n  ${id}: ${bars}\n`);
  });
});
