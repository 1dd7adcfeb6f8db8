import { expect, test } from 'vitest';
import { readBlock } from '../../src/notation/read.ts';
import { MARK_NAMES } from '../../src/score/mark.ts';
import { EXAMPLES, MARKED } from '../../src/site/examples.ts';

const all = [...Object.entries(EXAMPLES), ...MARKED.map(({ name, text }) => [name, text] as const)];

test.each(all)('the example “%s” reads without a word of complaint', (_, text) => {
  expect(readBlock(text).diagnostics).toEqual([]);
});

test('every mark a note can have is explained, with a note that has it', () => {
  const shown = MARKED.flatMap(({ name, text }) => {
    const events = readBlock(text).score?.bars.flatMap((bar) => bar.events) ?? [];
    const marks = events.flatMap((event) =>
      event.kind === 'sound' ? event.marks.map((mark) => mark.name as string) : [],
    );
    return marks.includes(name.toLowerCase()) ? [name.toLowerCase()] : [];
  });
  expect(shown.sort()).toEqual([...MARK_NAMES].sort());
});
