/**
 * The shape of a role: as many sides as its degree, a disc for the root. A flat role is hollow, any other filled; colour
 * comes from the style sheet by class, and never is alone.
 */
import type { Degree } from '../harmony/chord.ts';
import type { Role } from '../harmony/role.ts';
import type { HoleNote } from '../instrument/harp.ts';
import { endsInQuarter } from '../instrument/quarter-step.ts';
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
  const stretch = stretchFor(role, text);
  const half = Math.ceil(Math.max(16, halfOfShape(role, text) + 1));
  const wider = stretch === 1 ? '' : ` transform="scale(${stretch} 1)"`;
  return (
    `<svg class="role-mark" viewBox="${-half} -16 ${2 * half} 32" width="${n((size * half) / 16)}" height="${n(size)}" aria-hidden="true" focusable="false">` +
    `<path class="${shapeClasses(role)}" d="${path}"${wider}/>${number}</svg>`
  );
}

/** The number of a note in its shape: with a `q` where it is bent by a quarter step. */
export const numberOf = ({ hole, bend }: HoleNote): string => `${hole}${endsInQuarter(bend) ? 'q' : ''}`;

/**
 * How much wider a shape is for its text. A triangle has little room beside the top of two figures, so that for a quarter step, which
 * has one figure more than other numbers, it is wider, and not higher.
 */
const stretchFor = ({ degree }: Role, text: string | undefined): number =>
  degree !== 3 || text === undefined || !isQuarter(text) ? 1 : text.length > 2 ? 1.7 : 1.3;

/** Whether a number or a label is that of a quarter step. */
const isQuarter = (text: string): boolean => text.length > 1 && /[qn↓]/.test(text);

/** Half the width of a role’s shape with a text in it. */
export const halfOfShape = (role: Role, text: string | undefined): number =>
  SHAPES[role.degree].half * stretchFor(role, text);

/** A role’s shape from the page’s sheet, for a text in it. */
export function useShape(role: Role, text: string, x: number, y: number): string {
  const stretch = stretchFor(role, text);
  const place = stretch === 1 ? `x="${n(x)}" y="${n(y)}"` : `transform="translate(${n(x)} ${n(y)})scale(${stretch} 1)"`;
  return `<use href="#s${role.degree}" class="${shapeClasses(role)}" ${place}/>`;
}

/** Most that the text in a shape is wide. */
const TEXT_ROOM = 16;
/** In a triangle. */
const TRIANGLE_ROOM = { two: 10.8, three: 14.6 };
/** Where the text of two characters and more is, which is set smaller; in a triangle of a quarter step, above the descender of its `q`. */
const BASELINE = { one: 5.8, more: 4.7, triangle: 3.9 };

/** The size of a text in a role’s shape, or alone; `block.css` has the same. */
export const sizeOfNumber = (text: string, role: Role | undefined): number =>
  role?.degree === 3 && isQuarter(text) ? 12.5 : text.length > 1 ? 13.5 : 16;

/** The text in a role's shape, or alone where a note has no role. Two characters are set smaller, three of a quarter step are pressed together: `10q`, `↓♭3`. */
export function shapeText(text: string, x: number, y: number, role: Role | undefined): string {
  const on = role && !isHollow(role) ? ` on${roleClass(role) ? role.degree : ''}` : '';
  const wide = text.length > 1;
  const inTriangle = role?.degree === 3 && isQuarter(text);
  const room = inTriangle ? (text.length > 2 ? TRIANGLE_ROOM.three : TRIANGLE_ROOM.two) : TEXT_ROOM;
  const pressed =
    inTriangle || (text.length > 2 && /[q↓]/.test(text)) ? ` textLength="${room}" lengthAdjust="spacingAndGlyphs"` : '';
  const baseline = inTriangle ? BASELINE.triangle : wide ? BASELINE.more : BASELINE.one;
  const size = inTriangle ? ` ${CLASS.narrowNumber}` : wide ? ` ${CLASS.wideNumber}` : '';
  return `<text class="${CLASS.holeNumber}${size}${on}" x="${n(x)}" y="${n(y + baseline)}"${pressed}>${escapeText(text)}</text>`;
}
