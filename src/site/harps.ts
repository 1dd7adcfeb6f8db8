/** The harps a course is played on: its tunings, and for each the keys and the lessons that use it. */
import type { Course, Lesson } from '../course/course.ts';
import type { Harp } from '../instrument/harp.ts';
import { keyNote } from '../instrument/harp.ts';
import { RICHTER, type Tuning } from '../instrument/tuning.ts';
import { harpInWords } from './words.ts';

export interface UsedTuning {
  readonly tuning: Tuning;
  /** The harp its page shows first: the one most blocks are written for. */
  readonly harp: Harp;
  readonly lessons: readonly { readonly lesson: Lesson; readonly harps: readonly string[] }[];
}

/** Every page asks, and the answer is the same for all of a site. */
const answers = new WeakMap<readonly Lesson[], readonly UsedTuning[]>();

/** Every tuning the lessons use, in the order of the course's table of tunings. */
export function tuningsUsed(course: Course, lessons: readonly Lesson[]): readonly UsedTuning[] {
  const known = answers.get(lessons) ?? findTunings(course, lessons);
  answers.set(lessons, known);
  return known;
}

function findTunings(course: Course, lessons: readonly Lesson[]): readonly UsedTuning[] {
  return course.tunings.flatMap((tuning): UsedTuning[] => {
    const users = lessons.flatMap((lesson) => {
      const harps = harpsOf(lesson).filter((harp) => harp.tuning.id === tuning.id);
      return harps.length > 0 ? [{ lesson, harps }] : [];
    });
    const harp = mostUsed(users.flatMap(({ harps }) => harps));
    if (!harp) return [];
    const named = users.map(({ lesson, harps }) => ({ lesson, harps: [...new Set(harps.map(keyName))] }));
    return [{ tuning, harp, lessons: named }];
  });
}

/** The harps of a lesson's blocks and figures. */
const harpsOf = ({ blocks, figures }: Lesson): readonly Harp[] => [
  ...blocks.flatMap(({ score }) => score?.harp ?? []),
  ...figures.flatMap(({ figure }) => figure?.harp ?? []),
];

/** `low F`: the tuning goes without saying. */
const keyName = ({ key, register }: Harp): string => harpInWords({ key, register }, RICHTER);

/** Of those used equally often, the lowest. */
function mostUsed(harps: readonly Harp[]): Harp | undefined {
  const uses = new Map<string, { harp: Harp; count: number }>();
  for (const harp of harps) {
    const use = uses.get(keyName(harp)) ?? { harp, count: 0 };
    use.count++;
    uses.set(keyName(harp), use);
  }
  return [...uses.values()].sort((a, b) => b.count - a.count || keyNote(a.harp) - keyNote(b.harp))[0]?.harp;
}

/** Below the site's base. */
export const harpPath = (tuning: Tuning): string => `harps/${tuning.id}/`;
