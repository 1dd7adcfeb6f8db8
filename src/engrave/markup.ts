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
export const escapeText = (text: string): string => (/^[\w .,()/+-]*$/.test(text) ? text : escaped(text));

const escaped = (text: string): string =>
  text
    .toWellFormed()
    .replace(/\p{Cc}|[￾￿]/gu, ' ')
    .replace(/[&<>"']/g, (character) => valueAt(ENTITIES, character));

/** A coordinate: two decimals at most, no trailing zeros, and never `-0`. */
export function n(value: number): string {
  const hundredths = Math.round(value * 100);
  const known = written.get(hundredths);
  if (known !== undefined) return known;
  const text = hundredths === 0 ? '0' : String(hundredths / 100);
  if (Math.abs(hundredths) < KEPT) written.set(hundredths, text);
  return text;
}

/** Coordinates that were written before, by hundredths: most are asked for again and again. */
const written = new Map<number, string>();
/** None beyond is kept. */
const KEPT = 100_000;

/** A glyph of the page's sheet at a place, by its code point in hexadecimal. */
export function use(code: string, x: number, y: number, className?: string, scale = 1): string {
  const role = className ? ` class="${className}"` : '';
  const place = scale === 1 ? ` x="${n(x)}" y="${n(y)}"` : ` transform="translate(${n(x)} ${n(y)})scale(${n(scale)})"`;
  return `<use href="#g-${code}"${place}${role}/>`;
}
