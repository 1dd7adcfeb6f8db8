/**
 * What a student has done, as it is kept in the browser and saved to a file. A record is read as untrusted: another
 * version, another program or a failing disk may have written it.
 */

/** Whether something is done, and when that was last set. */
export interface DoneMark {
  readonly done: boolean;
  /**
   * Milliseconds since 1970, or 0 where it is not known. Taking a mark back is kept too, so that an older record cannot bring it
   * back.
   */
  readonly at: number;
}

/** What can be marked as done. */
export type ProgressKind = 'lessons' | 'blocks';
/** All of them, in the order of the record. */
export const PROGRESS_KINDS = ['lessons', 'blocks'] as const;

/** Lessons by id, blocks as `lesson/block`. */
export type Progress = Readonly<Record<ProgressKind, ReadonlyMap<string, DoneMark>>>;

/** The version of the record’s format. A record of a later one is not touched. */
export const VERSION = 1;
/** The progress of a student who has marked nothing. */
export const NOTHING: Progress = { lessons: new Map(), blocks: new Map() };

/** What reading a stored record gives. */
export type Reading =
  | { readonly kind: 'sound'; readonly progress: Progress }
  /** Not a valid record, in part or as a whole: `progress` is its valid part. */
  | { readonly kind: 'damaged'; readonly progress: Progress }
  /** Written by another version of the site. */
  | { readonly kind: 'version'; readonly version: number; readonly progress: Progress };

/** Reads a record. Nothing is thrown, whatever the text. */
export function readRecord(text: string): Reading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { kind: 'damaged', progress: NOTHING };
  }
  if (!isRecord(value) || !isCount(value['version'])) return { kind: 'damaged', progress: NOTHING };
  const { version } = value;
  if (version !== VERSION) return { kind: 'version', version, progress: NOTHING };
  const lessons = readMarks(value['lessons']);
  const blocks = readMarks(value['blocks']);
  const progress = { lessons: lessons.marks, blocks: blocks.marks };
  return { kind: lessons.whole && blocks.whole ? 'sound' : 'damaged', progress };
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;

/** The last moment that a clock can show (ECMAScript, “Time Values and Time Range”). */
const LAST_MOMENT = 8.64e15;

/** The marks that are valid, and whether all of them were. */
function readMarks(value: unknown): { readonly marks: ReadonlyMap<string, DoneMark>; readonly whole: boolean } {
  const marks = new Map<string, DoneMark>();
  if (!isRecord(value)) return { marks, whole: false };
  let whole = true;
  for (const [key, mark] of Object.entries(value)) {
    if (isRecord(mark) && typeof mark['done'] === 'boolean' && isCount(mark['at'])) {
      // No later mark could replace one at the last moment or after it.
      marks.set(key, { done: mark['done'], at: mark['at'] >= LAST_MOMENT ? 0 : mark['at'] });
    } else whole = false;
  }
  return { marks, whole };
}

/** The text {@link readRecord} reads. `course` is for a person who opens the file; nothing depends on it. */
export function writeRecord(progress: Progress, course?: string): string {
  const marks = (kind: ProgressKind) => Object.fromEntries([...progress[kind]].sort(([a], [b]) => (a < b ? -1 : 1)));
  return JSON.stringify({ version: VERSION, course, lessons: marks('lessons'), blocks: marks('blocks') });
}

/** Of each mark the one set last. Set at the same moment, done counts. */
export function merge(a: Progress, b: Progress): Progress {
  return { lessons: mergeMarks(a.lessons, b.lessons), blocks: mergeMarks(a.blocks, b.blocks) };
}

function mergeMarks(a: ReadonlyMap<string, DoneMark>, b: ReadonlyMap<string, DoneMark>): ReadonlyMap<string, DoneMark> {
  const merged = new Map(a);
  for (const [key, mark] of b) {
    const other = merged.get(key);
    if (!other || mark.at > other.at || (mark.at === other.at && mark.done)) merged.set(key, mark);
  }
  return merged;
}

/** Whether a lesson or a block is marked as done. */
export const isDone = (progress: Progress, kind: ProgressKind, key: string): boolean =>
  progress[kind].get(key)?.done === true;

/** The part of a record that is about these lessons, and how many of its marks are about others. */
export function partOf(
  progress: Progress,
  lessons: ReadonlySet<string>,
): { readonly part: Progress; readonly left: number } {
  const keep = (kind: ProgressKind, lessonOf: (key: string) => string) =>
    new Map([...progress[kind]].filter(([key]) => lessons.has(lessonOf(key))));
  // A lesson may be in a folder, a block never is.
  const part = { lessons: keep('lessons', (key) => key), blocks: keep('blocks', (key) => key.replace(/\/[^/]*$/, '')) };
  return { part, left: sizeOf(progress) - sizeOf(part) };
}

/** How many marks a record has. */
export const sizeOf = ({ lessons, blocks }: Progress): number => lessons.size + blocks.size;

/** Whether two records mark the same things at the same times. */
export function sameProgress(a: Progress, b: Progress): boolean {
  return PROGRESS_KINDS.every((kind) => {
    if (a[kind].size !== b[kind].size) return false;
    return [...a[kind]].every(([key, mark]) => {
      const other = b[kind].get(key);
      return other?.done === mark.done && other.at === mark.at;
    });
  });
}
