/** What a file says of the music besides the notes: where it comes from, and on what terms. */
import { harpName } from '../instrument/harp.ts';
import { positionInWords } from '../instrument/position.ts';
import type { Score } from '../score/score.ts';

/** What is known of a block besides its score. */
export interface Credits {
  /** Of the block, or words for it where it has none. */
  readonly title: string;
  /** The title of the lesson it is from. */
  readonly lesson?: string | undefined;
  readonly course?: string | undefined;
  readonly teacher?: string | undefined;
  /** The terms of the course, in its own words. */
  readonly licence?: string | undefined;
  /** Where the block is on the web. */
  readonly address?: string | undefined;
}

/** Where a block comes from, in a line: its lesson, its course and its address, as far as they are known. */
export const sourceOf = ({ lesson, course, address }: Credits): string =>
  [lesson, course, address].filter((part) => part !== undefined).join(', ');

/** What plays a score: `C harp, second position`, with the tuning where it is not the usual one. */
export function partName({ harp, position }: Pick<Score, 'harp' | 'position'>): string {
  const tuning = harp.tuning.id === 'richter' ? '' : `, ${harp.tuning.title} tuning`;
  return `${harpName(harp)} harp${tuning}, ${positionInWords(position)}`;
}
