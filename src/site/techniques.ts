/** What pages tell of techniques: where each is taught, and which blocks use it. */
import type { Block, Lesson } from '../course/course.ts';
import { stepOf } from '../curriculum/curriculum.ts';
import type { Match } from '../technique/detect.ts';
import type { Group, Technique } from '../technique/technique.ts';
import type { OutlinedLesson } from './outline.ts';
import type { Site } from './site.ts';

export interface TechniqueUse {
  readonly lesson: Lesson;
  readonly block: Block;
  readonly level: number;
  readonly matches: readonly Match[];
}

export interface ShownTechnique {
  readonly technique: Technique;
  /** In path order. */
  readonly taughtIn: readonly OutlinedLesson[];
  /** From the easiest block up. */
  readonly uses: readonly TechniqueUse[];
}

const shown = new WeakMap<Site, ReadonlyMap<string, ShownTechnique>>();

/** The techniques that a lesson of the site teaches or a block of it uses, by id, in the order of the repertoire. */
export function techniquesOf(site: Site): ReadonlyMap<string, ShownTechnique> {
  const known = shown.get(site);
  if (known) return known;
  const { path, outline, course } = site;
  const uses = new Map<string, TechniqueUse[]>();
  for (const lesson of site.lessons) {
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
  const techniques = new Map<string, ShownTechnique>();
  for (const technique of course.repertoire.techniques) {
    const taughtIn = (path.teachers.get(technique.id) ?? [])
      .flatMap((id) => outline.places.get(id) ?? [])
      .sort((a, b) => a.number - b.number);
    // Lessons stand in path order, so blocks of one level stay in it.
    const own = (uses.get(technique.id) ?? []).sort((a, b) => a.level - b.level);
    if (taughtIn.length + own.length > 0) techniques.set(technique.id, { technique, taughtIn, uses: own });
  }
  shown.set(site, techniques);
  return techniques;
}

export const GROUP_TITLES: Readonly<Record<Group, string>> = {
  tone: 'Tone',
  mouth: 'The mouth',
  breath: 'The breath',
  reach: 'Getting about',
  bends: 'Bends',
  overbends: 'Overbends',
  ornament: 'Ornament',
  time: 'Time',
  harmony: 'Harmony',
};
