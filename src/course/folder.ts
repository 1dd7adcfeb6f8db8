/** A course folder, read: its texts, decoded, and the names of its media. Nothing is thrown. */
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic } from '../diagnostics/diagnostic.ts';
import { locate, type Placed, type Problem, placeOf } from '../diagnostics/place.ts';
import { lengthOf as lengthOfRecording } from './clips/recording.ts';
import { decode } from './decode.ts';
import { errorCode, type Files, reasonOf } from './files.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** Makes a folder a course. */
export const COURSE_FILE = 'course.yaml';
/** Techniques of the course’s own; optional. */
export const TECHNIQUES_FILE = 'techniques.yaml';
/** Words that the course explains; optional. */
export const GLOSSARY_FILE = 'glossary.yaml';
/** The folder of the lessons. */
export const LESSONS = 'lessons';
/** What the name of a lesson's file ends in. */
const ENDING = '.mdx';

/** The id of a lesson by its file, as that is written: `blues/turn` of `lessons/blues/turn.mdx`. */
export const lessonIdOf = (file: string): string => file.slice(LESSONS.length + 1, -ENDING.length);

/** The folder of pictures and recordings, published as it is. */
export const MEDIA = 'media';
/** The folder of files for the top of the site; optional. */
export const PUBLIC = 'public';
/** The folders of a course, each an author's own. */
export const COURSE_FOLDERS: readonly string[] = [LESSONS, MEDIA, PUBLIC];

/** A file an author wrote, as text. */
export interface TextFile {
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  /** Without a byte order mark. */
  readonly text: string;
}

/** The files of a course folder. */
export interface CourseFolder {
  /** Absolute path. */
  readonly dir: string;
  readonly courseFile: TextFile | undefined;
  readonly techniques: TextFile | undefined;
  readonly glossary: TextFile | undefined;
  /** In the order of their names. */
  readonly lessons: readonly TextFile[];
  /** `media/harp.svg` and so on, in order. */
  readonly media: readonly string[];
  /** `public/favicon.ico` and so on, in order. */
  readonly publicFiles: readonly string[];
  readonly problems: readonly Problem[];
  /** A text file by its path below the course; undefined where it cannot be read. */
  textOf(path: string): ReturnType<typeof decode> | undefined;
  /** How long a recording lasts, in seconds; undefined where its file does not say. */
  lengthOf(path: string): number | undefined;
}

/** The name of a file or folder of a course that another name is near to; undefined for one that is right, or that has nothing to do with it. */
function nameMeantBy(name: string): string | undefined {
  if (NAMES.includes(name) || name.startsWith('.')) return undefined;
  if (/\.mdx(?:\.txt)?$/i.test(name)) return `${LESSONS}/${name.replace(/\.mdx(?:\.txt)?$/i, '.mdx')}`;
  const [, stem = '', ending = ''] = /^(.*?)(\.(?:ya?ml|json|ya?ml\.txt))?$/i.exec(name) ?? [];
  if (ending === '') return NAMES.find((one) => [`${one}s`, one, one.replace(/s$/, '')].includes(name.toLowerCase()));
  return NAMES.find((one) => one === `${stem.toLowerCase()}.yaml` || one === `${stem.toLowerCase()}s.yaml`);
}

const NAMES: readonly string[] = [COURSE_FILE, TECHNIQUES_FILE, GLOSSARY_FILE, LESSONS, MEDIA, PUBLIC];

const MEGABYTE = 2 ** 20;
/** In bytes. A long lesson has some fifty thousand. */
const LONGEST_FILE = 2 * MEGABYTE;

const report = reporter(COURSE_PROBLEMS);
const START = { from: 0, to: 0 };
const TOP: Placed = placeOf('');

/** Reads the texts of a course folder and lists its media. */
export function readFolder(files: Files): CourseFolder {
  const problems: Problem[] = [];
  const say = (file: string, diagnostic: Diagnostic, placed: Placed = TOP): void => {
    problems.push(locate(diagnostic, file, placed));
  };
  const unreadable = (file: string, error: unknown): void =>
    say(file, report('file-unreadable', START, { why: reasonOf(error) }));
  const { dir } = files;
  const kind = files.kind();
  if (kind !== 'folder') {
    if (kind === 'missing') say('.', report('course-missing', START, { dir }));
    else if (kind === 'file') say('.', report('course-not-folder', START, { dir }));
    else unreadable('.', kind.error);
    return {
      dir,
      courseFile: undefined,
      techniques: undefined,
      glossary: undefined,
      lessons: [],
      media: [],
      publicFiles: [],
      problems,
      textOf,
      lengthOf,
    };
  }
  const courseFile = read(COURSE_FILE);
  const strangers = files.names().flatMap((name) => {
    const meant = nameMeantBy(name);
    return meant === undefined ? [] : [{ name, meant }];
  });
  const misnamed = (meant: string): string | undefined => strangers.find((one) => one.meant === meant)?.name;
  if (!courseFile && problems.length === 0)
    say(COURSE_FILE, report('course-file-missing', START, { misnamed: misnamed(COURSE_FILE) }));
  const techniques = read(TECHNIQUES_FILE);
  const glossary = read(GLOSSARY_FILE);
  const names = files.list(LESSONS, unreadable);
  const lessons = names.filter((name) => name.endsWith('.mdx')).flatMap((name) => read(name) ?? []);
  for (const file of names) {
    const [, name, ending] = /([^/]*?)(\.(?:mdx?\.txt|md|markdown|txt|MDX|Mdx))$/.exec(file) ?? [];
    if (name !== undefined && ending !== undefined) say(file, report('lesson-extension', START, { name, ending }));
  }
  if (lessons.length === 0 && !problems.some((one) => one.file.startsWith(LESSONS) && one.severity === 'error')) {
    const folder = misnamed(LESSONS);
    const stray = strangers.find(({ meant }) => meant.startsWith(`${LESSONS}/`))?.name;
    say(LESSONS, report('no-lessons', START, { misnamed: folder ?? stray }));
  }
  for (const { name, meant } of strangers) {
    // What is missing for it has been reported as missing.
    const isReported = (meant === COURSE_FILE && !courseFile) || (lessons.length === 0 && meant.startsWith(LESSONS));
    if (!isReported && !files.names().includes(meant)) say(name, report('file-misplaced', START, { name, meant }));
  }
  const media = files.list(MEDIA, unreadable);
  // A server may need hidden ones, such as .well-known.
  const publicFiles = files.list(PUBLIC, unreadable, 'hidden');
  return { dir, courseFile, techniques, glossary, lessons, media, publicFiles, problems, textOf, lengthOf };

  /** The text of a file, or undefined if there is none or it cannot be read (which is then a problem). */
  function read(file: string): TextFile | undefined {
    try {
      if (files.size(file) > LONGEST_FILE) {
        say(file, report('file-too-long', START, { limit: `${LONGEST_FILE / MEGABYTE} megabytes` }));
        return undefined;
      }
      const { text, diagnostics } = decode(files.read(file));
      if (diagnostics.length > 0) {
        const placed = placeOf(text);
        for (const diagnostic of diagnostics) say(file, diagnostic, placed);
      }
      return { file, text };
    } catch (error) {
      if (errorCode(error) !== 'ENOENT') unreadable(file, error);
      return undefined;
    }
  }

  function textOf(path: string): ReturnType<typeof decode> | undefined {
    try {
      return decode(files.read(path));
    } catch {
      return undefined;
    }
  }

  function lengthOf(path: string): number | undefined {
    return files.measure(path, lengthOfRecording);
  }
}
