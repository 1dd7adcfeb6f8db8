/**
 * Where playing can hurt: what a course says, or the usual short cautions. Common practice; no medical claim is made.
 * The level and hours of safe listening: ITU-T H.870.
 */
import type { Course } from '../course/course.ts';

const USUAL: readonly string[] = [
  'Play in short sessions. Stop, sit and breathe as usual if your head goes light.',
  'Stop when jaw, lips, tongue or neck hurt. Loosen rather than force; a bend never comes from pressure.',
  'A harp goes into one mouth. Do not share one that has not been cleaned, and leave it when you are ill.',
  'Keep headphones low, and give your ears a rest from them.',
  'If your lungs, heart, jaw or teeth give you trouble, ask your doctor or dentist before you begin, and follow them rather than us.',
];

export const cautionsOf = ({ file }: Course): readonly string[] => (file.cautions.length > 0 ? file.cautions : USUAL);
