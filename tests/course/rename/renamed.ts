/** Renames in memory, for tests. */
import { isDeepStrictEqual } from 'node:util';
import type { Course } from '../../../src/course/course.ts';
import { filesAfter } from '../../../src/course/edits/change.ts';
import { withOverlay } from '../../../src/course/edits/overlay.ts';
import { type Files, filesOnDisk } from '../../../src/course/files.ts';
import { loadFrom } from '../../../src/course/load.ts';
import { isSameName, type Named, namesIn, ownName, readNewName } from '../../../src/course/rename/name.ts';
import { fileChanges, planRename, type RenamedFile, type RenamePlan } from '../../../src/course/rename/plan.ts';
import { courseAfter, newProblems, strayedLinks } from '../../../src/course/rename/verify.ts';
import { filesInMemory } from '../files-in-memory.ts';
import { AWKWARD } from './awkward-course.ts';

export interface Loaded {
  readonly files: Files;
  readonly course: Course;
}

export const loaded = (files: Files): Loaded => ({ files, course: loadFrom(files) });
const YAML_FILES = ['course.yaml', 'techniques.yaml', 'glossary.yaml'];

/** The bytes of all texts of a course, by file. */
export const bytesOf = ({ files, course }: Loaded): Record<string, string> =>
  Object.fromEntries(
    [...YAML_FILES, ...course.lessons.map(({ file }) => file)].map((file) => [file, files.read(file).toString('utf8')]),
  );

/** The bytes after a rename and the rename back. */
export function renamedBack({ files, course }: Loaded, plan: RenamePlan, from: Named): Record<string, string> {
  const after = filesAfter(files, fileChanges(files, plan.changes));
  const there = { files: after, course: courseAfter(files, course, plan.changes) };
  const { changes } = planOf(there, plan.to, ownName(from));
  return bytesOf({
    files: filesAfter(there.files, fileChanges(there.files, changes)),
    course: courseAfter(there.files, there.course, changes),
  });
}

export const awkward = (): Loaded => loaded(filesInMemory(AWKWARD));
export const demo = (): Loaded => loaded(filesOnDisk(new URL('../../../content', import.meta.url).pathname));

/** Names that the course itself can change. */
export const ownNames = ({ course }: Loaded): Named[] =>
  [...namesIn(course)].filter((one) => 'named' in readNewName(course, one, `${ownName(one)}-x`));

/** The plan of a rename that nothing stands in the way of. */
export function planOf({ course }: Loaded, from: Named, name: string): RenamePlan {
  const made = readNewName(course, from, name);
  if ('fault' in made) throw new Error(made.fault);
  const planned = planRename(course, { from, to: made.named });
  if ('obstacles' in planned) throw new Error(JSON.stringify(planned.obstacles));
  return planned.plan;
}

/** What a rename would make wrong: new problems, links that lead elsewhere, and that nothing has the new name. */
export function wrongAfter({ files, course }: Loaded, plan: RenamePlan, changes: readonly RenamedFile[]): string[] {
  const after = courseAfter(files, course, changes);
  return [
    ...newProblems(course, after, changes).map(({ file, line, column, code }) => `${file}:${line}:${column} ${code}`),
    ...strayedLinks(course, after, plan),
    ...([...namesIn(after)].some((one) => isSameName(one, plan.to)) ? [] : ['the new name is nowhere']),
  ];
}

/** What is wrong with a course that was renamed and back, and where its links lead elsewhere than before. */
export function wrongAgain({ files, course }: Loaded, back: Readonly<Record<string, string>>): string[] {
  const contents = Object.entries(back).map(([file, text]) => [file, Buffer.from(text)] as const);
  const again = loadFrom(withOverlay(files, new Map(contents)));
  return [
    ...again.problems.map(({ file, line, code }) => `${file}:${line} ${code}`),
    ...course.lessons.flatMap(({ id, links }) =>
      links.flatMap(({ target, url }, index) =>
        isDeepStrictEqual(again.byId.get(id)?.links[index]?.target, target) ? [] : `${id}: ${url}`,
      ),
    ),
  ];
}
