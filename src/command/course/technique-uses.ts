/** All uses of a technique in a course. */
import type { Block, Course, Lesson } from '../../course/course.ts';
import { stepOf } from '../../curriculum/curriculum.ts';
import { plural } from '../../diagnostics/catalogue.ts';
import { knownNames, nearest } from '../../diagnostics/nearest.ts';
import type { Match } from '../../technique/detect.ts';
import type { Technique } from '../../technique/technique.ts';
import { orMeant, type Terminal, UsageError } from '../command.ts';
import { shownPath } from '../terminal/shown-path.ts';
import { wrap } from '../terminal/wrap.ts';
import { placesInText, techniquePlaces } from './technique-places.ts';

/** A block that uses the technique. */
interface Use {
  readonly lesson: Lesson;
  readonly block: Block;
  readonly level: number;
  readonly matches: readonly Match[];
}

/** Whether a technique of the course has this id. */
export const isTechnique = ({ repertoire }: Course, id: string): boolean =>
  repertoire.techniques.some((technique) => technique.id === id);

/** Prints where a technique is taught and used, in the order of the path. Throws a UsageError for an id there is not. */
export function printUses(course: Course, id: string, json: boolean, terminal: Terminal): number {
  const { techniques } = course.repertoire;
  const technique = techniques.find((one) => one.id === id);
  if (!technique) {
    const near = nearest(id, knownNames(techniques));
    throw new UsageError(`There is no technique “${id}”.${orMeant(near)}`);
  }
  const uses = usesOf(course, id);
  const taughtIn = course.path.teachers.get(id) ?? [];
  terminal.out(
    json
      ? `${JSON.stringify({ id, title: technique.title, taughtIn, uses: uses.map(useAsData) }, null, 2)}\n`
      : usesInText(course, technique, taughtIn, uses, terminal),
  );
  return 0;
}

function usesOf({ lessons, path }: Course, id: string): Use[] {
  return lessons.flatMap((lesson) => {
    const { survey } = stepOf(path, lesson.id);
    return lesson.blocks.flatMap((block): Use[] => {
      const read = survey[block.index];
      const matches = read?.found.find(({ technique }) => technique.id === id)?.matches;
      return read && matches ? [{ lesson, block, level: read.difficulty.level, matches }] : [];
    });
  });
}

const useAsData = ({ lesson, block, level, matches }: Use): object => ({
  lesson: lesson.id,
  block: block.id,
  index: block.index,
  file: lesson.file,
  line: block.range.start.line,
  difficulty: level,
  places: techniquePlaces(block, matches),
});

function usesInText(
  course: Course,
  { id, title }: Technique,
  taughtIn: readonly string[],
  uses: readonly Use[],
  { cwd }: Terminal,
): string {
  const lines = [`${id} (${title})${taughtIn.length > 0 ? `: taught in ${taughtIn.join(', ')}` : ''}`, ''];
  for (const { lesson, block, level, matches } of uses) {
    const file = shownPath(`${course.dir}/${lesson.file}`, cwd);
    lines.push(`${file}:${block.range.start.line}  ${lesson.id}/${block.id}, difficulty ${level}`);
    lines.push(...wrap(placesInText(techniquePlaces(block, matches)), 4));
  }
  const count = new Set(uses.map(({ lesson }) => lesson)).size;
  lines.push(
    ...(uses.length > 0 ? [''] : []),
    uses.length === 0
      ? 'No block of this course uses it.'
      : `Used in ${plural(uses.length, 'block')} of ${plural(count, 'lesson')}.`,
  );
  return `${lines.join('\n')}\n`;
}
