/** Where in the course a student was last. Read as untrusted. */
import { blockNow, type FormerIds, lessonNow } from './former.ts';
import { entryOf, type Progress } from './record.ts';

/** The lesson that was open last, and the block of it that was played last. */
export interface Place {
  readonly lesson: string;
  readonly block?: string;
}

/** The key of the one entry of the kind `place`. */
export const PLACE = 'last';

/** A place as an entry has it; undefined where it is none. */
export function readPlace(value: unknown): Place | undefined {
  const { lesson, block }: { readonly lesson?: unknown; readonly block?: unknown } = value ?? {};
  if (typeof lesson !== 'string') return undefined;
  return typeof block === 'string' ? { lesson, block } : { lesson };
}

/** Where the student was last, as it is called now; undefined where they were nowhere yet. */
export function lastPlace(progress: Progress, former: FormerIds | undefined): Place | undefined {
  const place = readPlace(entryOf(progress, 'place', PLACE)?.value);
  if (!place || !former) return place;
  const { lesson, block } = place;
  const key = block === undefined ? undefined : blockNow(`${lesson}/${block}`, former);
  return {
    lesson: lessonNow(lesson, former),
    ...(key !== undefined && { block: key.slice(key.lastIndexOf('/') + 1) }),
  };
}

/** The end of a lesson’s address that leads to a block, as its page has it (site/addresses.ts). */
export const blockHash = (block: string): string => `#${encodeURIComponent(`block-${block}`)}`;
