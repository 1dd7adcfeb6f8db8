/** Where playing can hurt: what a course says, or the usual short cautions, and what a lesson's techniques ask for. */
import type { Course, Lesson } from '../course/course.ts';
import { stepOf } from '../curriculum/curriculum.ts';
import { cautionsFor } from '../technique/repertoire.ts';
import { cautionText } from './texts.ts';

const USUAL = ['sessions', 'pain', 'sharing', 'metal', 'headphones', 'doctor'] as const;

/** The cautions of a course: its own, or the usual ones if it has none. */
export const cautionsOf = ({ file }: Course): readonly string[] =>
  file.cautions.length > 0 ? file.cautions : USUAL.map((caution) => cautionText(caution));

/** The cautions of what a lesson teaches, and then of what its blocks use besides; each once. */
export function cautionsOfLesson({ path, repertoire }: Course, { id, frontMatter, blocks }: Lesson): readonly string[] {
  const { survey } = stepOf(path, id);
  const used = blocks.flatMap(({ index }) => survey[index]?.found ?? []).map(({ technique }) => technique.id);
  return cautionsFor(repertoire, [...frontMatter.teaches, ...used]);
}
