/** All targets of the fuzzer. */
import { blocks } from './blocks/blocks.ts';
import { courses } from './courses.ts';
import { format } from './format.ts';
import { lessons } from './lessons.ts';
import { pages } from './pages.ts';
import { host, serve } from './servers.ts';
import { storage } from './storage/storage.ts';
import type { AnyTarget } from './target.ts';

export const TARGETS: readonly AnyTarget[] = [blocks, format, courses, lessons, storage, pages, host, serve];

export function targetOf(name: string): AnyTarget {
  const target = TARGETS.find((one) => one.name === name);
  if (!target) throw new RangeError(`there is no target ${name}`);
  return target;
}
