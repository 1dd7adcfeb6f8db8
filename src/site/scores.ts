/** A lesson's scores as a file of the site, fetched only by a student who plays another harp than the one it is written for. */
import type { Scores } from '../browser/harp/worker.ts';
import type { Lesson } from '../course/course.ts';
import { blockParts } from './addresses.ts';

const FOLDER = 'scores/';

/** Where a lesson's file is, below the base. */
export const scoresPath = (lesson: Lesson): string => `${FOLDER}${lesson.id}.json`;

/** The lesson whose file a path below the base names. */
export const lessonOfScores = (path: string, lessons: readonly Lesson[]): Lesson | undefined =>
  path.startsWith(FOLDER) ? lessons.find((lesson) => scoresPath(lesson) === path) : undefined;

/** The JSON of a lesson's scores, by block id; blocks with errors are left out. */
export function scoresText({ blocks }: Lesson): string {
  const scores: Scores = Object.fromEntries(
    blocks.flatMap(({ id, score }) => (score ? [[id, { id: blockParts(id), score }]] : [])),
  );
  return JSON.stringify(scores);
}
