/** `reedway new course`: a folder with a small complete course. */
import { existsSync, readdirSync, statSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { COURSE_FILE } from '../../course/folder.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import { type Terminal, UsageError } from '../command.ts';
import { courseAround } from '../course/check.ts';
import { putFiles } from '../export/destination.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { starterCourse } from './starter.ts';

/** What a folder may hold and still count as empty: what version control and file managers put there. */
const NOT_COUNTED: ReadonlySet<string> = new Set(['.git', '.gitignore', '.gitattributes', '.DS_Store']);
/** How many names a message lists. */
const LISTED = 4;

/** Makes a course in a folder that is empty or not there yet. Throws a UsageError for any other, and CannotWrite. */
export function newCourse(dir: string, title: string | undefined, terminal: Terminal): void {
  const folder = resolve(terminal.cwd, dir);
  refuseUnlessEmpty(folder, dir);
  const around = courseAround(dirname(folder));
  if (around !== undefined)
    throw new UsageError(`${dir} is inside the course ${around}. A course cannot be inside another one.`);
  putFiles({ folder }, starterCourse(title ?? titleFrom(folder)));
  const shown = shownPath(folder, terminal.cwd);
  const named = shown === '.' ? '' : ` ${quotedForShell(shown)}`;
  const option = shown === '.' ? '' : ` --course ${quotedForShell(shown)}`;
  terminal.out(
    [
      `${shown === '.' ? 'This folder' : shown} is a course of one lesson now: ${COURSE_FILE} and lessons/first-notes.mdx.`,
      '',
      ...table([
        [`reedway serve${named}`, 'show it while you write'],
        [`reedway new lesson "Second notes"${option}`, 'add a lesson'],
        [`reedway check${named}`, 'list every problem'],
        [`reedway build${named}`, 'make the site'],
      ]),
      '',
    ].join('\n'),
  );
}

function refuseUnlessEmpty(folder: string, typed: string): void {
  const found = statSync(folder, { throwIfNoEntry: false });
  if (!found) return;
  if (!found.isDirectory()) throw new UsageError(`${typed} is a file. Name a folder for the new course.`);
  const names = readdirSync(folder).filter((name) => !NOT_COUNTED.has(name));
  if (names.length === 0) return;
  if (existsSync(resolve(folder, COURSE_FILE)))
    throw new UsageError(`${typed} is a course already. reedway new lesson TITLE adds a lesson to it.`);
  const more = names.length - LISTED;
  const list = `${names.slice(0, LISTED).join(', ')}${more > 0 ? ` and ${plural(more, 'more')}`.replace(/s$/, '') : ''}`;
  throw new UsageError(`${typed} is not empty: it holds ${list}. Name a new folder, or an empty one.`);
}

/** `my-course` is called “My course” until its author changes that. */
function titleFrom(folder: string): string {
  const words = basename(folder)
    .replace(/[-_\s]+/g, ' ')
    .trim();
  return words === '' ? 'A course' : words.charAt(0).toUpperCase() + words.slice(1);
}

const quotedForShell = (path: string): string => (/^[\w./:@~-]+$/.test(path) ? path : `"${path}"`);

function table(rows: readonly (readonly [string, string])[]): string[] {
  const width = Math.max(...rows.map(([first]) => first.length));
  return rows.map(([first, second]) => `  ${first.padEnd(width)}  ${second}`);
}
