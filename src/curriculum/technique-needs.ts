/**
 * Whether each lesson has been taught what its blocks use. A technique is known where a lesson on the way (or the lesson
 * itself) teaches it. Beyond that, two things count as it: a wider technique on the way, if nobody teaches the narrower
 * one by name; and, note by note, a narrower technique on the way that the same note is found by.
 */
import type { Match } from '../technique/detect.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import type { Technique } from '../technique/technique.ts';
import { itemAt } from '../values/checked.ts';
import { type Reach, reaches } from './graph.ts';
import type { PathLesson } from './lesson.ts';
import type { LessonSurvey } from './survey.ts';

/** A technique that a lesson uses and has been taught by another. */
export interface TechniqueUseOfLesson {
  readonly lesson: number;
  readonly teacher: number;
  /** What is used, which may be narrower or wider than what is taught. */
  readonly technique: string;
  readonly block: number;
  readonly match: Match;
}

/** A technique that a lesson uses and nobody on its way has taught. */
export interface MissingTechnique {
  readonly lesson: number;
  readonly technique: Technique;
  /** The first place where it is missed. */
  readonly block: number;
  readonly match: Match;
  /** Who teaches it (or a wider one) elsewhere, in path order. */
  readonly teachers: readonly number[];
}

/** Who teaches what: lessons by number, in path order. */
export type Teachers = ReadonlyMap<string, readonly number[]>;

/** Which lessons teach each technique, in path order. */
export function teachersOf(lessons: readonly PathLesson[], rank: ArrayLike<number>): Teachers {
  const teachers = new Map<string, number[]>();
  lessons.forEach((lesson, number) => {
    for (const id of new Set(lesson.frontMatter.teaches)) {
      const others = teachers.get(id);
      if (others) others.push(number);
      else teachers.set(id, [number]);
    }
  });
  for (const numbers of teachers.values()) numbers.sort((a, b) => itemAt(rank, a) - itemAt(rank, b));
  return teachers;
}

/** Which lesson teaches what, and what comes before it. */
export interface TeachingContext {
  readonly repertoire: Repertoire;
  readonly teachers: Teachers;
  /** What the author's own dependencies lead to. */
  readonly reach: Reach;
}

/** The lesson that taught a technique by the time of a lesson, itself included; undefined if none has. */
export const teacherBefore = (
  { teachers, reach }: TeachingContext,
  technique: string,
  lesson: number,
): number | undefined =>
  teachers.get(technique)?.find((teacher) => teacher === lesson || reaches(reach, teacher, lesson));

/** Which techniques a lesson uses that others taught, and which nobody before it taught. */
export function techniqueNeeds(
  lesson: number,
  survey: LessonSurvey,
  way: TeachingContext,
): { readonly debts: TechniqueUseOfLesson[]; readonly gaps: MissingTechnique[] } {
  const { repertoire, teachers } = way;
  const uses = usesOf(survey);
  const debts: TechniqueUseOfLesson[] = [];
  const missed = new Map<string, Use[]>();
  for (const [id, inBlocks] of uses) {
    const taught = [id, ...(teachers.has(id) ? [] : (repertoire.wider.get(id) ?? []))];
    const teacher = taught.map((one) => teacherBefore(way, one, lesson)).find((one) => one !== undefined);
    const {
      block,
      matches: [match],
    } = itemAt(inBlocks, 0);
    if (teacher !== undefined && match) {
      if (teacher !== lesson) debts.push({ lesson, teacher, technique: id, block, match });
      continue;
    }
    const matches = oneByOne(inBlocks);
    const played = eventsIn(narrowerUses(id).filter(([narrow]) => teacherBefore(way, narrow, lesson) !== undefined));
    const remaining = matches.filter((use) => !played.has(keyOf(use)));
    if (remaining.length > 0 && !isTakenForGranted(id)) missed.set(id, remaining);
  }
  const gaps: MissingTechnique[] = [];
  for (const [id, matches] of missed) {
    // Of the untaught techniques of one note, the narrowest is reported.
    const reported = eventsIn(
      narrowerUses(id)
        .filter(([narrow]) => missed.has(narrow))
        .map(([narrow]) => [narrow, missed.get(narrow) ?? []]),
    );
    const first = matches.find((use) => !reported.has(keyOf(use)));
    const technique = repertoire.byId.get(id);
    if (first && technique) gaps.push({ lesson, technique, ...first, teachers: anyTeachers(id) });
  }
  return { debts, gaps };

  function narrowerUses(id: string): [string, Use[]][] {
    return (repertoire.narrower.get(id) ?? []).flatMap((narrow): [string, Use[]][] => {
      const found = uses.get(narrow);
      return found ? [[narrow, oneByOne(found)]] : [];
    });
  }

  function anyTeachers(id: string): readonly number[] {
    const own = teachers.get(id);
    if (own) return own;
    const wide = repertoire.wider.get(id)?.find((one) => teachers.has(one));
    return (wide !== undefined && teachers.get(wide)) || [];
  }

  function isTakenForGranted(id: string): boolean {
    return repertoire.byId.get(id)?.assumed === true && anyTeachers(id).length === 0;
  }
}

interface Use {
  readonly block: number;
  readonly match: Match;
}

interface UsesInBlock {
  readonly block: number;
  /** At least one. */
  readonly matches: readonly Match[];
}

/** The uses of each technique of a lesson, block by block. */
function usesOf(survey: LessonSurvey): Map<string, UsesInBlock[]> {
  const uses = new Map<string, UsesInBlock[]>();
  survey.forEach((surveyed, block) => {
    for (const { technique, matches } of surveyed?.found ?? []) {
      const list = uses.get(technique.id);
      if (list) list.push({ block, matches });
      else uses.set(technique.id, [{ block, matches }]);
    }
  });
  return uses;
}

const oneByOne = (uses: readonly UsesInBlock[]): Use[] =>
  uses.flatMap(({ block, matches }) => matches.map((match) => ({ block, match })));

const keyOf = ({ block, match }: Use): string => `${block} ${match.at ?? 'all'}`;
const eventsIn = (uses: readonly (readonly [string, readonly Use[]])[]): Set<string> =>
  new Set(
    uses.flatMap(([, list]) =>
      list.flatMap(({ block, match }) => [
        `${block} ${match.at ?? 'all'}`,
        ...match.events.map((event) => `${block} ${event}`),
      ]),
    ),
  );
