/** The path of a course, and what is wrong with it, in the files. */
import { checkPath } from '../curriculum/check.ts';
import { type Curriculum, curriculumOf, stepOf } from '../curriculum/curriculum.ts';
import type { Finding } from '../curriculum/finding.ts';
import type { PathLesson } from '../curriculum/lesson.ts';
import type { LessonSurvey } from '../curriculum/survey.ts';
import { locate, type Problem, problemAt, TOP } from '../diagnostics/place.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import { valueAt } from '../values/checked.ts';
import type { Course, Lesson } from './course.ts';
import type { Stage } from './course-schema.ts';
import { placeAt } from './severity.ts';

/** The path of some lessons of a course. Where nothing else decides, lessons are by their names. */
export function coursePath<L extends PathLesson>(
  lessons: readonly L[],
  stages: readonly Stage[],
  repertoire: Repertoire,
  survey: (lesson: L) => LessonSurvey,
): Curriculum {
  const byName = [...lessons].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  return curriculumOf({ lessons: byName, stages: stages.map(({ id }) => id), repertoire, surveys: byName.map(survey) });
}

/** The path as students see it: without drafts, and without connections that only drafts make. */
export function publishedPath({
  path,
  file,
  repertoire,
  lessons,
}: Pick<Course, 'path' | 'file' | 'repertoire' | 'lessons'>): Curriculum {
  const published = lessons.filter(({ frontMatter }) => !frontMatter.draft);
  if (published.length === lessons.length) return path;
  const surveyOf = ({ id }: PathLesson): LessonSurvey => stepOf(path, id).survey;
  return coursePath(published, file.stages, repertoire, surveyOf);
}

/** Everything wrong with the path. */
export const pathIsSound = ({ path, file, byId }: Pick<Course, 'path' | 'file' | 'byId'>): Problem[] =>
  checkPath(path, file.stages).map((finding) => problemOf(finding, valueAt(byId, finding.lesson)));

function problemOf({ place, diagnostic }: Finding, { file, places, blocks }: Lesson): Problem {
  if ('frontMatter' in place) return placeAt(diagnostic, file, places, place.frontMatter.split('/'), 'value');
  const block = 'block' in place ? blocks[place.block] : undefined;
  if ('block' in place && block && place.span) return locate({ ...diagnostic, span: place.span }, file, block.placed);
  return problemAt(diagnostic, file, ('range' in place ? place.range : block?.range) ?? TOP);
}
