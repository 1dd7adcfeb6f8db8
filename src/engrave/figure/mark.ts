/** Shapes of roles and degrees inside a line of text. */
import type { Role } from '../../harmony/role.ts';
import type { Step } from '../../instrument/scale.ts';

const shape = (degree: number, flat: boolean): string => {
  const points = Array.from({ length: degree }, (_, i) => {
    const a = (2 * Math.PI * i) / degree - Math.PI / 2;
    return `${(7 * Math.cos(a)).toFixed(1)} ${(7 * Math.sin(a)).toFixed(1)}`;
  });
  const d = degree <= 2 ? 'M-7 0a7 7 0 1 0 14 0a7 7 0 1 0 -14 0Z' : `M${points.join('L')}Z`;
  return `<svg class="mark role-${degree}${flat ? ' flat' : ''}" viewBox="-9 -9 18 18" aria-hidden="true"><path d="${d}"/></svg>`;
};
export const roleShape = (role: Role): string => shape(role.degree, role.alter < 0);
export const degreeShape = (step: Step): string => shape(step.degree, step.label.includes('♭'));
