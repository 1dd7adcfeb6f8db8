/** A lesson's scores as a file of the site, fetched only where a student plays another harp than the one it is written for, or saves a block. */
import type { Scores } from '../browser/harp/scores.ts';
import type { Course, Lesson } from '../course/course.ts';
import { blockParts } from './addresses.ts';
import { creditsOf } from './credits.ts';

const FOLDER = 'scores/';

/** Where a lesson's file is, below the base. */
export const scoresPath = (lesson: Lesson): string => `${FOLDER}${lesson.id}.json`;

/** The lesson whose file a path below the base names. */
export const lessonOfScores = (path: string, lessons: readonly Lesson[]): Lesson | undefined =>
  path.startsWith(FOLDER) ? lessons.find((lesson) => scoresPath(lesson) === path) : undefined;

/** The JSON of a lesson's scores, by block id; blocks with errors are left out. */
export function scoresText(course: Course, lesson: Lesson): string {
  const scores: Scores = Object.fromEntries(
    lesson.blocks.flatMap((block) => {
      const { id, score } = block;
      return score ? [[id, { id: blockParts(id), score, credits: creditsOf(course, lesson, block) }]] : [];
    }),
  );
  return JSON.stringify(scores);
}
