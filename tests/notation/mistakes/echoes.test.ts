/** A problem that another one beside it causes is not reported. */
import { expect, test } from 'vitest';
import { readBlock } from '../../../src/notation/read.ts';
import { contextWith } from '../../fuzz/blocks/reading.ts';

test.each([
  ['a glide to a note that cannot be read', 'slot: 1/4\n-4 > -~4 5 6', ['not-a-slot']],
  ['a hole behind a bar line without a space', 'slot: 1/4\n4 -4 5 -5|6 = . .', ['ending-misplaced']],
  ['two holes without a space between them', 'slot: 1/4\n4 98 5 |]', ['no-hole']],
])('%s is one problem', (_, text, codes) => {
  expect(readBlock(text, contextWith([])).diagnostics.map(({ code }) => code)).toEqual(codes);
});
