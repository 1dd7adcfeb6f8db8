/** The course as its students walk it: stages of numbered lessons, and what lies before and after each. */
import type { Course, Lesson } from '../course/course.ts';
import type { Stage } from '../course/course-schema.ts';
import { type Curriculum, stepOf } from '../curriculum/curriculum.ts';

/** A lesson with its place on the path. */
export interface OutlinedLesson {
  readonly lesson: Lesson;
  /** Along the whole path, from 1. */
  readonly number: number;
}

/** A stage with its lessons. */
export interface OutlinedStage {
  /** Undefined for lessons that are in no stage. */
  readonly stage: Stage | undefined;
  /** Of those with a stage, from 1. */
  readonly number: number | undefined;
  readonly lessons: readonly OutlinedLesson[];
}

/** The lessons of a course as they are listed. */
export interface CourseOutline {
  readonly stages: readonly OutlinedStage[];
  readonly places: ReadonlyMap<string, Placement>;
}

/** Where a lesson is. */
export interface Placement extends OutlinedLesson {
  readonly stage: OutlinedStage;
  readonly before: OutlinedLesson | undefined;
  readonly after: OutlinedLesson | undefined;
  /** What it builds on directly. */
  readonly needs: readonly OutlinedLesson[];
  /** What it opens the way to. */
  readonly opens: readonly OutlinedLesson[];
}

/** The outline of the lessons of a site, which are in the order of the path. */
export function outlineOf(course: Course, lessons: readonly Lesson[], path: Curriculum): CourseOutline {
  const numbered = lessons.map((lesson, index): OutlinedLesson => ({ lesson, number: index + 1 }));
  const stages: { stage: Stage | undefined; number: number | undefined; lessons: OutlinedLesson[] }[] = [];
  for (const one of numbered) {
    const id = one.lesson.frontMatter.stage;
    const index = course.file.stages.findIndex((stage) => stage.id === id);
    const stage = course.file.stages[index];
    const last = stages.at(-1);
    if (last !== undefined && last.stage === stage) last.lessons.push(one);
    else stages.push({ stage, number: stage && index + 1, lessons: [one] });
  }
  const byId = new Map(numbered.map((one) => [one.lesson.id, one]));
  const outlined = (ids: readonly string[]): OutlinedLesson[] =>
    ids.flatMap((id) => byId.get(id) ?? []).sort((a, b) => a.number - b.number);
  const places = new Map<string, Placement>();
  for (const stage of stages) {
    for (const one of stage.lessons) {
      const { needs, opens } = stepOf(path, one.lesson.id);
      places.set(one.lesson.id, {
        ...one,
        stage,
        before: numbered[one.number - 2],
        after: numbered[one.number],
        needs: outlined(needs),
        opens: outlined(opens),
      });
    }
  }
  return { stages, places };
}
