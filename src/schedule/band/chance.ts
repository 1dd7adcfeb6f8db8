/** Repeatable random numbers: the same keys give the same sequence of numbers from 0 up to 1. */
export function chance(...keys: readonly number[]): () => number {
  let state = 0x9e3779b9;
  for (const key of keys) state = mixed(state ^ Math.imul(key + 1, 0x85ebca6b));
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    return (mixed(state) >>> 0) / 4294967296;
  };
}

/** Spreads the bits of a number over all thirty-two. */
function mixed(value: number): number {
  let bits = Math.imul(value ^ (value >>> 16), 0x7feb352d);
  bits = Math.imul(bits ^ (bits >>> 15), 0x846ca68b);
  return bits ^ (bits >>> 16);
}
