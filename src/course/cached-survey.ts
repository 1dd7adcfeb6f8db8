/** What the blocks of lessons take, kept from one run of the program to the next. */
import type { LessonSurvey } from '../curriculum/survey.ts';
import { readSurvey, writeSurvey } from '../curriculum/survey-text.ts';
import { blockKeys, digest } from './block-key.ts';
import type { Course, Lesson } from './course.ts';

/** Texts by what they were made from. One that was stored may be gone the next time. */
export interface Keep {
  get(key: string): string | undefined;
  put(key: string, text: string): void;
}

type Survey = (lesson: Lesson) => LessonSurvey;

/** A lesson is surveyed again only where the music of a block of it, or a technique of the course, is another. */
export function cachedSurvey(
  survey: Survey,
  course: Pick<Course, 'tunings' | 'forms' | 'byId' | 'repertoire'>,
  keep: Keep,
): Survey {
  const keyOf = blockKeys(course);
  const techniques = digest(JSON.stringify(course.repertoire.techniques));
  return (lesson) => {
    const blocks = lesson.blocks.map((block) => (block.score ? keyOf(lesson, block) : ''));
    const key = digest('survey', techniques, ...blocks);
    const before = keep.get(key);
    if (before !== undefined) return readSurvey(before, course.repertoire);
    const made = survey(lesson);
    keep.put(key, writeSurvey(made));
    return made;
  };
}
