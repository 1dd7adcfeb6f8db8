/** Names that lessons and blocks had before: what was marked under one of them counts under the name of now. */
import { type DoneMark, merge, NOTHING, type Progress } from './record.ts';

/** By the former name: lessons by id, blocks as `lesson/block`, both as the lesson is called now. */
export interface FormerIds {
  readonly lessons: Readonly<Record<string, string>>;
  readonly blocks: Readonly<Record<string, string>>;
}

/** The former names that a page states, in the attribute `data-former` of its root. */
export function readFormer(written: string | undefined): FormerIds | undefined {
  return written === undefined ? undefined : JSON.parse(written);
}

/** A record with each mark under the name of now. Of two for one thing the one set last counts, as in any two records. */
export function underNewNames(progress: Progress, former: FormerIds | undefined): Progress {
  if (!former) return progress;
  const lessonNow = (key: string): string => nameNow(former.lessons, key);
  const blockNow = (key: string): string => {
    const at = key.lastIndexOf('/');
    return nameNow(former.blocks, at < 0 ? key : `${lessonNow(key.slice(0, at))}${key.slice(at)}`);
  };
  const lessons = divided(progress.lessons, lessonNow);
  const blocks = divided(progress.blocks, blockNow);
  // Of marks that get one name several times over, each is merged by itself.
  return [
    ...lessons.moved.map((one) => ({ ...NOTHING, lessons: one })),
    ...blocks.moved.map((one) => ({ ...NOTHING, blocks: one })),
  ].reduce<Progress>(merge, { lessons: lessons.kept, blocks: blocks.kept });
}

const nameNow = (names: Readonly<Record<string, string>>, key: string): string =>
  Object.hasOwn(names, key) ? (names[key] ?? key) : key;

/** Marks whose name is that of now; and the others, each under the name of now. */
function divided(marks: ReadonlyMap<string, DoneMark>, nameOf: (key: string) => string) {
  const kept = new Map<string, DoneMark>();
  const moved: ReadonlyMap<string, DoneMark>[] = [];
  for (const [key, mark] of marks) {
    const now = nameOf(key);
    if (now === key) kept.set(key, mark);
    else moved.push(new Map([[now, mark]]));
  }
  return { kept, moved };
}
