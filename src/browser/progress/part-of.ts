/** The part of a file that is about the course of this site. */

import { blockNow, type FormerIds, lessonNow } from './former.ts';
import { readPlace } from './place.ts';
import { practisedBlocks } from './practice-log.ts';
import type { Entry, Progress } from './record.ts';

/**
 * The entries of a record that are about these lessons, and how many are about others. Entries of unknown kinds are not divided: nobody
 * here knows what they are about. Names within an entry may be former ones.
 */
export function partOf(
  progress: Progress,
  lessons: ReadonlySet<string>,
  former?: FormerIds,
): { readonly part: Progress; readonly left: number } {
  // A lesson may be in a folder, a block never is.
  const ofBlock = (key: string): boolean => lessons.has(blockNow(key, former).replace(/\/[^/]*$/, ''));
  const isOfCourse: Readonly<Record<string, (key: string, entry: Entry) => boolean>> = {
    lessons: (key) => lessons.has(key),
    blocks: ofBlock,
    settings: ofBlock,
    place: (_, { value }) => lessons.has(lessonNow(readPlace(value)?.lesson ?? '', former)),
    log: (_, { value }) => practisedBlocks(value).some(ofBlock),
  };
  const part = new Map(
    [...progress].map(([kind, entries]) => {
      const keep = Object.hasOwn(isOfCourse, kind) ? isOfCourse[kind] : undefined;
      return [kind, keep ? new Map([...entries].filter(([key, entry]) => keep(key, entry))) : entries];
    }),
  );
  return { part, left: sizeOf(progress) - sizeOf(part) };
}

/** How many entries a record has. */
export const sizeOf = (progress: Progress): number => [...progress.values()].reduce((sum, { size }) => sum + size, 0);
