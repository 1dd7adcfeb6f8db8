/** The problems of a course as a page of the authoring server lists them. */

import type { Course } from '../../course/course.ts';
import { COURSE_FILE, GLOSSARY_FILE, TECHNIQUES_FILE } from '../../course/folder.ts';
import type { Severity } from '../../diagnostics/diagnostic.ts';
import { linesOf, type Problem, showProblem } from '../../diagnostics/place.ts';
import { GLOSSARY_PAGE } from '../navigation.ts';

/** How many problems there are of each severity. */
export type Counts = Readonly<Record<Severity, number>>;

/** A problem, its place with the line of its file, and the sentences about it. */
export interface ListedProblem {
  readonly problem: Problem;
  readonly place: string;
  readonly said: readonly string[];
}

/** The problems of one file, as a page lists them. */
export interface ListedFile {
  readonly file: string;
  readonly counts: Counts;
  /** Errors before warnings before hints, each in the order of the file. */
  readonly shown: readonly ListedProblem[];
  /** How many are not shown. */
  readonly more: number;
}

/** All problems of a course for one page. */
export interface ProblemList {
  readonly counts: Counts;
  /** Of the file that the page is made from, all of them. */
  readonly own: ListedFile | undefined;
  /** Files with errors first. */
  readonly others: readonly ListedFile[];
}

/** The most that is shown of a file that is not the page's own; `check` has the others. */
const MOST_OF_OTHERS = 20;

const SEVERITIES: readonly Severity[] = ['error', 'warning', 'hint'];

/** The problems for the page at a path below the base. */
export function problemList(course: Course, path: string | undefined): ProblemList {
  const ownFile = fileOfPage(course, path);
  const byFile = Map.groupBy(course.problems, ({ file }) => file);
  const listed = [...byFile].map(([file, problems]): ListedFile => {
    const sorted = SEVERITIES.flatMap((severity) => problems.filter((problem) => problem.severity === severity));
    const source = course.sources.get(file);
    const lines = source === undefined ? undefined : linesOf(source);
    const shown = file === ownFile ? sorted : sorted.slice(0, MOST_OF_OTHERS);
    return {
      file,
      counts: countsOf(problems),
      shown: shown.map((problem) => listedProblem(problem, lines)),
      more: sorted.length - shown.length,
    };
  });
  const worst = ({ counts }: ListedFile): number => SEVERITIES.findIndex((severity) => counts[severity] > 0);
  return {
    counts: countsOf(course.problems),
    own: listed.find(({ file }) => file === ownFile),
    others: listed.filter(({ file }) => file !== ownFile).toSorted((a, b) => worst(a) - worst(b)),
  };
}

/** A problem with the line of its file, whose lines are given. */
export function listedProblem(problem: Problem, source: readonly string[] | undefined): ListedProblem {
  const shown = showProblem(problem, source);
  // The sentences are below the line; here they are set as text.
  const [place = ''] = shown.split(`\n  ${problem.message}`);
  return { problem, place, said: [problem.message, ...(problem.help === undefined ? [] : [problem.help])] };
}

const countsOf = (problems: readonly Problem[]): Counts => {
  const count = (severity: Severity): number => problems.filter((problem) => problem.severity === severity).length;
  return { error: count('error'), warning: count('warning'), hint: count('hint') };
};

/** The file of the course that a page is made from. */
function fileOfPage(course: Course, path: string | undefined): string | undefined {
  if (path === undefined) return undefined;
  if (path === '') return COURSE_FILE;
  if (path === `${GLOSSARY_PAGE}/`) return GLOSSARY_FILE;
  if (path.startsWith('techniques/')) return TECHNIQUES_FILE;
  return course.lessons.find(({ id }) => path === `lessons/${id}/`)?.file;
}
