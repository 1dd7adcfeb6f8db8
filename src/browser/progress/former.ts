/** Names that lessons and blocks had before: what was set under one of them counts under the name of now. */
import { merge, type Progress, progressOf } from './record.ts';

/** By the former name: lessons by id, blocks as `lesson/block`, both as the lesson is called now. */
export interface FormerIds {
  readonly lessons: Readonly<Record<string, string>>;
  readonly blocks: Readonly<Record<string, string>>;
}

/** The former names that a page states, in the attribute `data-former` of its root. */
export function readFormer(written: string | undefined): FormerIds | undefined {
  return written === undefined ? undefined : JSON.parse(written);
}

/**
 * A record with each entry under the name of now; the same record where none has another. Of two for one thing the one set last counts, as
 * in any two records. What is named within an entry stays as it was written: it is renamed where it is read.
 */
export function underNewNames(progress: Progress, former: FormerIds | undefined): Progress {
  if (!former) return progress;
  const nameNow = { lessons: lessonNow, blocks: blockNow, settings: blockNow };
  let moved: Progress = new Map();
  const kept = new Map(progress);
  for (const [kind, name] of Object.entries(nameNow)) {
    for (const [key, entry] of progress.get(kind) ?? []) {
      const now = name(key, former);
      if (now === key) continue;
      moved = merge(moved, progressOf(kind, now, entry));
      const left = new Map(kept.get(kind));
      left.delete(key);
      if (left.size > 0) kept.set(kind, left);
      else kept.delete(kind);
    }
  }
  return moved.size > 0 ? merge(kept, moved) : progress;
}

/** What a lesson is called now. */
export const lessonNow = (id: string, former: FormerIds | undefined): string =>
  former ? nameIn(former.lessons, id) : id;

/** What a block is called now, as `lesson/block`. */
export function blockNow(key: string, former: FormerIds | undefined): string {
  const at = key.lastIndexOf('/');
  if (!former || at < 0) return former ? nameIn(former.blocks, key) : key;
  return nameIn(former.blocks, `${lessonNow(key.slice(0, at), former)}${key.slice(at)}`);
}

const nameIn = (names: Readonly<Record<string, string>>, key: string): string =>
  Object.hasOwn(names, key) ? (names[key] ?? key) : key;
