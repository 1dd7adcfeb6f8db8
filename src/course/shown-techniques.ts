/** Which techniques have a page of their own, and what is on it: those that a lesson teaches or a block uses. */
import { type Curriculum, stepOf } from '../curriculum/curriculum.ts';
import type { Match } from '../technique/detect.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import type { Technique } from '../technique/technique.ts';
import type { Block, Lesson } from './course.ts';

/** A block in which a technique was found. */
export interface TechniqueUse {
  readonly lesson: Lesson;
  readonly block: Block;
  readonly level: number;
  readonly matches: readonly Match[];
}

/** A technique of the course, and where it is taught and used. */
export interface ShownTechnique {
  readonly technique: Technique;
  /** In the order of the lessons. */
  readonly taughtIn: readonly Lesson[];
  /** From the easiest block up. */
  readonly uses: readonly TechniqueUse[];
}

/** Of the lessons that are shown, which are steps of the path: by id, in the order of the repertoire. */
export function shownTechniques(
  lessons: readonly Lesson[],
  path: Pick<Curriculum, 'steps'>,
  { techniques }: Pick<Repertoire, 'techniques'>,
): ReadonlyMap<string, ShownTechnique> {
  const uses = new Map<string, TechniqueUse[]>();
  for (const lesson of lessons) {
    const { survey } = stepOf(path, lesson.id);
    for (const block of lesson.blocks) {
      const { found = [], difficulty } = survey[block.index] ?? {};
      for (const { technique, matches } of found) {
        const list = uses.get(technique.id) ?? [];
        list.push({ lesson, block, level: difficulty?.level ?? 0, matches });
        uses.set(technique.id, list);
      }
    }
  }
  const shown = new Map<string, ShownTechnique>();
  for (const technique of techniques) {
    const taughtIn = lessons.filter(({ frontMatter }) => frontMatter.teaches.includes(technique.id));
    // Blocks of one level stay in the order of their lessons.
    const own = (uses.get(technique.id) ?? []).sort((a, b) => a.level - b.level);
    if (taughtIn.length + own.length > 0) shown.set(technique.id, { technique, taughtIn, uses: own });
  }
  return shown;
}
