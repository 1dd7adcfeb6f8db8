/** Changes of a course's text files as data, before anything is written. */
import { isUtf8 } from 'node:buffer';
import type { Files } from '../files.ts';
import { withOverlay } from './overlay.ts';

/** A file of a course before and after it is changed. */
export interface FileChange {
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  /** As it is called afterwards, where that is another name. */
  readonly to?: string;
  /** What it was read as: its bytes, whatever they are. */
  readonly before: Buffer;
  readonly after: Buffer;
}

/** What a file of an editor on Windows may begin with. It is no part of its text. */
export const BYTE_ORDER_MARK = '\ufeff';

/** The bytes of a text in place of others: a byte order mark stays. */
export function encodeLike(before: Buffer, text: string): Buffer {
  const isMarked = before.toString('utf8', 0, 3).startsWith(BYTE_ORDER_MARK);
  return Buffer.from(isMarked ? BYTE_ORDER_MARK + text : text);
}

/**
 * The bytes that a text was read from; undefined where the file is no text, which would be written as another. Saved or removed since
 * then, the file is compared with them when it is to be written.
 */
export function bytesBehind(files: Files, file: string, text: string): Buffer | undefined {
  let now: Buffer;
  try {
    now = files.read(file);
  } catch {
    return Buffer.from(text);
  }
  return isUtf8(now) ? encodeLike(now, text) : undefined;
}

/** The files of a course as they would be after some changes. */
export function filesAfter(files: Files, changes: readonly FileChange[]): Files {
  const gone = changes.flatMap(({ file, to = file }): [string, null][] => (to === file ? [] : [[file, null]]));
  const written = changes.map(({ file, to = file, after }) => [to, after] as const);
  return withOverlay(files, new Map<string, Buffer | null>([...gone, ...written]));
}
