/** Text spoiled as people and programs spoil it: cut, repeated, swapped, and with pieces put in. */
import fc from 'fast-check';

type Change =
  | { readonly kind: 'cut'; readonly at: number; readonly length: number }
  | { readonly kind: 'put'; readonly at: number; readonly text: string }
  | { readonly kind: 'repeat'; readonly at: number; readonly length: number; readonly times: number }
  | { readonly kind: 'move'; readonly at: number; readonly length: number; readonly to: number };

/** A place as a share of the text, so that it is somewhere in any text. */
const place = fc.integer({ min: 0, max: 9999 });
const length = fc.oneof({ weight: 4, arbitrary: fc.integer({ min: 1, max: 4 }) }, fc.integer({ min: 1, max: 80 }));

const change = (pieces: fc.Arbitrary<string>): fc.Arbitrary<Change> =>
  fc.oneof(
    fc.record({ kind: fc.constant('cut' as const), at: place, length }),
    fc.record({ kind: fc.constant('put' as const), at: place, text: pieces }),
    fc.record({ kind: fc.constant('put' as const), at: place, text: pieces }),
    fc.record({ kind: fc.constant('repeat' as const), at: place, length, times: fc.integer({ min: 1, max: 3 }) }),
    fc.record({ kind: fc.constant('move' as const), at: place, length, to: place }),
  );

function changed(text: string, one: Change): string {
  const from = Math.floor((one.at / 10_000) * (text.length + 1));
  if (one.kind === 'put') return text.slice(0, from) + one.text + text.slice(from);
  const piece = text.slice(from, from + one.length);
  const rest = text.slice(0, from) + text.slice(from + one.length);
  if (one.kind === 'cut') return rest;
  if (one.kind === 'repeat') return text.slice(0, from) + piece.repeat(one.times) + text.slice(from);
  const to = Math.floor((one.to / 10_000) * (rest.length + 1));
  return rest.slice(0, to) + piece + rest.slice(to);
}

/** A text of `base` with one to five changes; what is put in comes from `pieces`, or is any character. */
export const mutated = (base: fc.Arbitrary<string>, pieces: fc.Arbitrary<string>): fc.Arbitrary<string> => {
  const put = fc.oneof({ weight: 4, arbitrary: pieces }, fc.string({ unit: 'binary', minLength: 1, maxLength: 3 }));
  return fc
    .tuple(base, fc.array(change(put), { minLength: 1, maxLength: 5 }))
    .map(([text, changes]) => changes.reduce(changed, text));
};
