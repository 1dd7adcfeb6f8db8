/** Reads a course of files in memory with all its checks, and asks of its problems what must be true of them. */
import { ALL_PROBLEMS } from '../../src/course/catalogue.ts';
import type { Course } from '../../src/course/course.ts';
import { loadFrom } from '../../src/course/load.ts';
import { type FileTable, filesInMemory } from '../course/files-in-memory.ts';
import { demand } from './target.ts';

/** A course that is right, which random files are added to. */
export const DEFAULT_FILES: FileTable = {
  'course.yaml': 'title: A course\nstages:\n  - id: one\n    title: One\n',
  'lessons/first.mdx': '---\ntitle: First\n---\n\n```tab\nid: x\nslot: 1/4\n4 -4 5 -5\n```\n',
  'glossary.yaml': 'terms:\n  - term: riff\n    means: A short figure.\n    also: [riffs]\n',
  'media/a.svg': '<svg xmlns="http://www.w3.org/2000/svg"/>',
  'media/a.mp3': 'sound',
};

/** Throws where a problem is not what a problem has to be. */
export function courseOfFiles(files: FileTable): Course {
  const course = loadFrom(filesInMemory(files));
  for (const { code, file, line, column, endLine, endColumn, message } of course.problems) {
    demand(Object.hasOwn(ALL_PROBLEMS, code), `the code ${code} is in no catalogue`);
    demand(!/\bundefined\b|NaN|\[object/.test(message.replace(/“[^”]*”/gs, '')), `${code} says: ${message}`);
    const source = course.sources.get(file);
    if (source === undefined) continue;
    const lines = source.split(/\r\n|\n|\r/);
    const last = lines[endLine - 1];
    demand(line >= 1 && line <= endLine, `${code} is on line ${line} to ${endLine}`);
    demand(last !== undefined, `${code} is on line ${endLine} of ${lines.length}`);
    demand(
      column >= 1 && endColumn >= 1 && endColumn <= last.length + 1,
      `${code} is in column ${column} to ${endColumn}`,
    );
    demand(line !== endLine || column <= endColumn, `${code} ends before it begins`);
  }
  // Read again with what was kept of it, it is the same.
  const again = loadFrom(filesInMemory(files), course);
  demand(JSON.stringify(again.problems) === JSON.stringify(course.problems), 'read again, it has other problems');
  return course;
}
