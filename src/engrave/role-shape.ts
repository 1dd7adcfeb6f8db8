/**
 * The shape of a role: as many sides as its degree, a disc for the root. A flat role is hollow, any other filled; colour
 * comes from the style sheet by class, and never is alone.
 */
import type { Degree } from '../harmony/chord.ts';
import type { Role } from '../harmony/role.ts';
import { CLASS } from './classes.ts';
import { escapeText, n } from './markup.ts';

interface Shape {
  /** Around 0 0, as large as a hole number needs. */
  readonly path: string;
  /** Half its width. */
  readonly half: number;
  readonly top: number;
  readonly bottom: number;
}

function polygon(sides: number, radius: number, down: number): Shape {
  const points = Array.from({ length: sides }, (_, index) => {
    const angle = (2 * Math.PI * index) / sides - Math.PI / 2;
    return [radius * Math.cos(angle), radius * Math.sin(angle) + down] as const;
  });
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    path: `M${points.map(([x, y]) => `${n(x)} ${n(y)}`).join('L')}Z`,
    half: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}

const square = (half: number): Shape => ({
  path: `M${-half} ${-half}H${half}V${half}H${-half}Z`,
  half,
  top: -half,
  bottom: half,
});

/** Sizes are chosen so that all look equally heavy and hold a digit. */
export const SHAPES: Readonly<Record<Degree, Shape>> = {
  1: { path: 'M-10.2 0a10.2 10.2 0 1 0 20.4 0a10.2 10.2 0 1 0-20.4 0Z', half: 10.2, top: -10.2, bottom: 10.2 },
  2: { path: 'M-13.4 0Q0-19.6 13.4 0Q0 19.6-13.4 0Z', half: 13.4, top: -9.8, bottom: 9.8 },
  3: { path: 'M0-14.3L12.9 8H-12.9Z', half: 12.9, top: -14.3, bottom: 8 },
  4: square(9.2),
  5: polygon(5, 11.6, 1),
  6: polygon(6, 11, 0),
  7: polygon(7, 11, 0.4),
};

/** Class of a degree's colour; the 2nd, 4th and 6th are plain ink and need none. */
export const roleClass = (role: Role): string | undefined => (role.degree % 2 === 1 ? `r${role.degree}` : undefined);

/** Whether a role is drawn hollow: all flat ones are. */
export const isHollow = (role: Role): boolean => role.alter < 0;

/** Classes of a role's shape: the common one, its colour, and that of a flat role. */
export function shapeClasses(role: Role): string {
  const colour = roleClass(role);
  return [CLASS.roleShape, colour, isHollow(role) && CLASS.flatRole].filter(Boolean).join(' ');
}

/** How a role’s shape is drawn. */
export interface RoleShapeOptions {
  /** CSS pixels of its width and height. */
  readonly size: number;
  /** What is in it: a hole number, or the role's label. Nothing if left out. */
  readonly text?: string;
}

/**
 * A role's shape as a picture of its own, for tables and legends. It is hidden from screen readers, so the text beside it
 * has to name the role. Needs `block.css`.
 */
export function roleShape(role: Role, { size, text }: RoleShapeOptions): string {
  const { path } = SHAPES[role.degree];
  const number = text === undefined ? '' : shapeText(text, 0, 0, role);
  return (
    `<svg class="role-mark" viewBox="-16 -16 32 32" width="${n(size)}" height="${n(size)}" aria-hidden="true" focusable="false">` +
    `<path class="${shapeClasses(role)}" d="${path}"/>${number}</svg>`
  );
}

/** Most that the text in a shape is wide. */
const TEXT_ROOM = 16;

/** The text in a role's shape, or alone where a note has no role. Two characters are set smaller, three of a quarter step are pressed together: `10q`, `↓♭3`. */
export function shapeText(text: string, x: number, y: number, role: Role | undefined): string {
  const on = role && !isHollow(role) ? ` on${roleClass(role) ? role.degree : ''}` : '';
  const wide = text.length > 1;
  const pressed =
    text.length > 2 && /[q↓]/.test(text) ? ` textLength="${TEXT_ROOM}" lengthAdjust="spacingAndGlyphs"` : '';
  return `<text class="${CLASS.holeNumber}${wide ? ` ${CLASS.wideNumber}` : ''}${on}" x="${n(x)}" y="${n(y + (wide ? 4.7 : 5.8))}"${pressed}>${escapeText(text)}</text>`;
}
