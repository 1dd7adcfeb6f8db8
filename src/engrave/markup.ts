/** Text and numbers as they are in SVG and HTML. */
import { valueAt } from '../values/checked.ts';

const ENTITIES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    '&': '&amp;',
    '<': '&lt;',
    '>': '&gt;',
    '"': '&quot;',
    "'": '&#39;',
  }),
);

/** Escapes for text and for quoted attributes. Control characters, which XML forbids, become spaces. */
export const escapeText = (text: string): string =>
  text
    .toWellFormed()
    .replace(/\p{Cc}|[￾￿]/gu, ' ')
    .replace(/[&<>"']/g, (character) => valueAt(ENTITIES, character));

/** A coordinate: two decimals at most, no trailing zeros, and never `-0`. */
export function n(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return rounded === 0 ? '0' : String(rounded);
}

/** A glyph of the page's sheet at a place, by its code point in hexadecimal. */
export function use(code: string, x: number, y: number, className?: string, scale = 1): string {
  const role = className ? ` class="${className}"` : '';
  const place = scale === 1 ? ` x="${n(x)}" y="${n(y)}"` : ` transform="translate(${n(x)} ${n(y)})scale(${n(scale)})"`;
  return `<use href="#g-${code}"${place}${role}/>`;
}
