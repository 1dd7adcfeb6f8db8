/** The course as its students walk it: stages of numbered lessons, and what lies before and after each. */
import type { Course, Lesson } from '../course/course.ts';
import type { Stage } from '../course/front.ts';

export interface OutlinedLesson {
  readonly lesson: Lesson;
  /** Along the whole path, from 1. */
  readonly number: number;
}

export interface OutlinedStage {
  /** Undefined for lessons that stand in no stage. */
  readonly stage: Stage | undefined;
  /** Of those with a stage, from 1. */
  readonly number: number | undefined;
  readonly lessons: readonly OutlinedLesson[];
}

export interface Outline {
  readonly stages: readonly OutlinedStage[];
  readonly places: ReadonlyMap<string, Placement>;
}

/** Where a lesson stands. */
export interface Placement extends OutlinedLesson {
  readonly stage: OutlinedStage;
  readonly before: OutlinedLesson | undefined;
  readonly after: OutlinedLesson | undefined;
  /** The lessons that name this one among what they require. */
  readonly opens: readonly OutlinedLesson[];
}

export function outlineOf(course: Course, lessons: readonly Lesson[]): Outline {
  const numbered = lessons.map((lesson, index): OutlinedLesson => ({ lesson, number: index + 1 }));
  const stages: { stage: Stage | undefined; number: number | undefined; lessons: OutlinedLesson[] }[] = [];
  for (const one of numbered) {
    const id = one.lesson.front.stage;
    const index = course.file.stages.findIndex((stage) => stage.id === id);
    const stage = course.file.stages[index];
    const last = stages.at(-1);
    if (last !== undefined && last.stage === stage) last.lessons.push(one);
    else stages.push({ stage, number: stage && index + 1, lessons: [one] });
  }
  const opens = new Map<string, OutlinedLesson[]>();
  for (const one of numbered) {
    for (const required of one.lesson.front.requires) {
      const list = opens.get(required);
      if (list) list.push(one);
      else opens.set(required, [one]);
    }
  }
  const places = new Map<string, Placement>();
  for (const stage of stages) {
    for (const one of stage.lessons) {
      places.set(one.lesson.id, {
        ...one,
        stage,
        before: numbered[one.number - 2],
        after: numbered[one.number],
        opens: opens.get(one.lesson.id) ?? [],
      });
    }
  }
  return { stages, places };
}
