/** Where playing can hurt: what a course says, or the usual short cautions. */
import type { Course } from '../course/course.ts';
import { cautionText } from './texts.ts';

const USUAL = ['sessions', 'pain', 'sharing', 'headphones', 'doctor'] as const;

/** The cautions of a course: its own, or the usual ones if it has none. */
export const cautionsOf = ({ file }: Course): readonly string[] =>
  file.cautions.length > 0 ? file.cautions : USUAL.map((caution) => cautionText(caution));
