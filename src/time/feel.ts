/** How a beat's two halves are played: evenly, or the first one longer. */
export interface Feel {
  readonly name: 'straight' | 'shuffle' | 'ratio';
  /** The share of the beat its first half takes, to the share of its second: 2 to 1 in a shuffle. */
  readonly long: number;
  readonly short: number;
}

/** Both halves of a beat are equally long. */
export const STRAIGHT: Feel = { name: 'straight', long: 1, short: 1 };
/** Triplet shuffle, two to one: common practice, no source. */
export const SHUFFLE: Feel = { name: 'shuffle', long: 2, short: 1 };

/** Reads `straight`, `shuffle`, or a ratio such as `60:40` (`50:50` is straight); undefined for anything else, or a first half that is the shorter. */
export function readFeel(text: string): Feel | undefined {
  const word = text.trim();
  if (word === 'straight') return STRAIGHT;
  if (word === 'shuffle') return SHUFFLE;
  const match = /^(\d{1,3})\s*:\s*(\d{1,3})$/.exec(word);
  if (!match) return undefined;
  const [long, short] = [Number(match[1]), Number(match[2])];
  if (short === 0 || long < short || long > 4 * short) return undefined;
  return long === short ? STRAIGHT : { name: 'ratio', long, short };
}

/** The feel as an author writes it: `straight`, `shuffle` or a ratio such as `60:40`. */
export const feelName = (feel: Feel): string => (feel.name === 'ratio' ? `${feel.long}:${feel.short}` : feel.name);
