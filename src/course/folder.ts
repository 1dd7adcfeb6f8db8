/** A course folder as it lies on the disk: its texts, decoded, and the names of its media. Nothing is thrown. */
import { isUtf8 } from 'node:buffer';
import { closeSync, fstatSync, openSync, readdirSync, readFileSync, readSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { type Diagnostic, reporter } from '../diagnostics/diagnostic.ts';
import { locate, type Placed, type Problem, placeOf } from '../diagnostics/place.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { lengthOf } from './recording.ts';

export const COURSE_FILE = 'course.yaml';
export const TECHNIQUES_FILE = 'techniques.yaml';
export const LESSONS = 'lessons';
export const MEDIA = 'media';

export interface TextFile {
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  /** Without a byte order mark. */
  readonly text: string;
}

export interface CourseFolder {
  readonly courseFile: TextFile | undefined;
  readonly techniques: TextFile | undefined;
  /** In the order of their names. */
  readonly lessons: readonly TextFile[];
  /** `media/harp.svg` and so on, in order. */
  readonly media: readonly string[];
  readonly problems: readonly Problem[];
}

const MEGABYTE = 2 ** 20;
/** In bytes. A long lesson has some fifty thousand. */
const LONGEST_FILE = 2 * MEGABYTE;

const report = reporter(COURSE_PROBLEMS);
const START = { from: 0, to: 0 };
const TOP: Placed = placeOf('');

export function readFolder(dir: string): CourseFolder {
  const problems: Problem[] = [];
  const say = (file: string, diagnostic: Diagnostic, placed: Placed = TOP): void => {
    problems.push(locate(diagnostic, file, placed));
  };
  const fault = faultOfFolder(dir);
  if (fault) {
    say('.', fault);
    return { courseFile: undefined, techniques: undefined, lessons: [], media: [], problems };
  }
  const courseFile = read(COURSE_FILE);
  if (!courseFile && problems.length === 0) say(COURSE_FILE, report('course-file-missing', START, {}));
  const techniques = read(TECHNIQUES_FILE);
  const names = list(LESSONS);
  const lessons = names.filter((name) => name.endsWith('.mdx')).flatMap((name) => read(name) ?? []);
  for (const name of names) {
    const other = /([^/]*)(\.(?:md|markdown|txt|MDX|Mdx))$/.exec(name);
    if (other) say(name, report('lesson-ending', START, { name: other[1] as string, ending: other[2] as string }));
  }
  if (lessons.length === 0 && !problems.some((one) => one.file.startsWith(LESSONS) && one.severity === 'error')) {
    say(LESSONS, report('no-lessons', START, {}));
  }
  return { courseFile, techniques, lessons, media: list(MEDIA), problems };

  /** The text of a file, or undefined if there is none or it cannot be read (which is then a problem). */
  function read(file: string): TextFile | undefined {
    try {
      const bytes = readFileSync(join(dir, file));
      if (bytes.length > LONGEST_FILE) {
        say(file, report('file-too-long', START, { limit: `${LONGEST_FILE / MEGABYTE} megabytes` }));
        return undefined;
      }
      const { text, diagnostics } = decode(bytes);
      if (diagnostics.length > 0) {
        const placed = placeOf(text);
        for (const diagnostic of diagnostics) say(file, diagnostic, placed);
      }
      return { file, text };
    } catch (error) {
      if (codeOf(error) !== 'ENOENT') say(file, report('file-unreadable', START, { why: reasonOf(error) }));
      return undefined;
    }
  }

  /** The files below a folder of the course, in order; hidden ones are nobody's. */
  function list(top: string): string[] {
    const found: string[] = [];
    const waiting = [top];
    const seen = new Set<string>();
    for (let folder = waiting.pop(); folder !== undefined; folder = waiting.pop()) {
      try {
        // A link to a folder above would go round for ever.
        const real = realpathSync(join(dir, folder));
        if (seen.has(real)) continue;
        seen.add(real);
        for (const entry of readdirSync(real, { withFileTypes: true })) {
          if (entry.name.startsWith('.')) continue;
          const name = `${folder}/${entry.name}`;
          const kind = entry.isSymbolicLink() ? kindOfLink(name) : entry;
          if (kind?.isDirectory()) waiting.push(name);
          else if (kind) found.push(name);
        }
      } catch (error) {
        if (codeOf(error) !== 'ENOENT' || folder !== top) {
          say(folder, report('file-unreadable', START, { why: reasonOf(error) }));
        }
      }
    }
    return found.sort();
  }

  /** What a link leads to; undefined where it leads nowhere, which is reported. */
  function kindOfLink(name: string): { isDirectory(): boolean } | undefined {
    try {
      return statSync(join(dir, name));
    } catch (error) {
      say(name, report('file-unreadable', START, { why: reasonOf(error) }));
      return undefined;
    }
  }
}

/** A text file of the course, by its path below it; undefined where it cannot be read. */
export function readTextOf(dir: string, file: string): ReturnType<typeof decode> | undefined {
  try {
    return decode(readFileSync(join(dir, file)));
  } catch {
    return undefined;
  }
}

/** How long a recording of the course lasts, in seconds; undefined where its file does not tell. */
export function lengthOfRecording(dir: string, path: string): number | undefined {
  try {
    const file = openSync(join(dir, path), 'r');
    try {
      const read = (from: number, length: number): Buffer => {
        const part = Buffer.alloc(length);
        return part.subarray(0, readSync(file, part, 0, length, from));
      };
      return lengthOf({ size: fstatSync(file).size, read });
    } finally {
      closeSync(file);
    }
  } catch {
    // It is cut short, or cannot be read at all, which the build will tell when it copies it.
    return undefined;
  }
}

function faultOfFolder(dir: string): Diagnostic | undefined {
  try {
    return statSync(dir).isDirectory() ? undefined : report('course-not-folder', START, { dir });
  } catch (error) {
    return codeOf(error) === 'ENOENT'
      ? report('course-missing', START, { dir })
      : report('file-unreadable', START, { why: reasonOf(error) });
  }
}

/** Text of a file's bytes. Bytes that are no UTF-8 become U+FFFD, and the first of them is reported. */
export function decode(bytes: Buffer): { readonly text: string; readonly diagnostics: readonly Diagnostic[] } {
  const decoded = bytes.toString('utf8');
  const text = decoded.startsWith('\ufeff') ? decoded.slice(1) : decoded;
  const diagnostics: Diagnostic[] = [];
  if (!isUtf8(bytes)) {
    const at = Math.max(0, firstBadByte(bytes, decoded) - (decoded.length - text.length));
    diagnostics.push(report('file-not-utf8', { from: at, to: at + 1 }, {}));
  }
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for.
  const control = /[\0-\x08\x0b\x0e-\x1f\x7f]/.exec(text);
  if (control && diagnostics.length === 0) {
    const name =
      control[0] === '\0' ? 'NUL' : `U+${control[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
    diagnostics.push(report('file-control-character', { from: control.index, to: control.index + 1 }, { name }));
  }
  return { text, diagnostics };
}

/** The offset in the decoded text of the first replacement character that did not stand in the bytes. */
function firstBadByte(bytes: Buffer, decoded: string): number {
  let byte = 0;
  let at = 0;
  for (const character of decoded) {
    if (character === '\ufffd' && !(bytes[byte] === 0xef && bytes[byte + 1] === 0xbf && bytes[byte + 2] === 0xbd))
      return at;
    byte += Buffer.byteLength(character);
    at += character.length;
  }
  return 0;
}

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'its owner does not allow it',
  EPERM: 'its owner does not allow it',
  EISDIR: 'it is a folder',
  ENOTDIR: 'it is no folder',
  ELOOP: 'it is a link that leads back to itself',
  ENOENT: 'it is a link to something that is not there',
  EMFILE: 'too many files are open',
  EIO: 'the disk reports an error',
};

const reasonOf = (error: unknown): string => REASONS[codeOf(error) ?? ''] ?? (error as Error).message;
