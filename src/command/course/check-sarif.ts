/** The problems of a course as a SARIF log. */
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { CATALOGUES } from '../../course/catalogue.ts';
import type { Course } from '../../course/course.ts';
import { isWithin } from '../../course/files.ts';
import { type SarifRule, sarifOf } from '../../diagnostics/sarif.ts';
import { packageVersion } from '../package.ts';
import { shownPath } from '../terminal/shown-path.ts';

const RULES: readonly SarifRule[] = CATALOGUES.flatMap(({ title, problems }) =>
  Object.entries(problems).map(([code, { severity, about }]): SarifRule => ({ code, subject: title, severity, about })),
);

/**
 * The log of a check that was typed in `cwd`. Pipelines run it at the top of a repository, and show files by their paths from
 * there; of a course that is elsewhere files are named from its own folder.
 */
export function sarifOfCourse({ dir, problems, sources }: Course, cwd: string) {
  const root = isWithin(cwd, dir) ? cwd : dir;
  return sarifOf({
    problems,
    rules: RULES,
    version: packageVersion(),
    root: `${pathToFileURL(root).href.replace(/\/$/, '')}/`,
    pathOf: (file) => (resolve(dir, file) === resolve(root) ? '' : shownPath(join(dir, file), root)),
    isText: (file) => sources.has(file),
  });
}
