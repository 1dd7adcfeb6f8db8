/** The words of a line of music in their clean spelling: one space between them, none within brackets beside the bracket. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import { BEND_SIGNS } from '../characters.ts';
import { scanMusic } from '../scan.ts';
import type { BarLine, Item } from '../tree.ts';

/** A piece of music that is not divided. */
export interface Atom {
  readonly text: string;
  /** Whether it is right behind the atom before it, without a space. */
  readonly joined: boolean;
  /** How many notes begin with it; undefined for a quotation, of which this is not known here. */
  readonly attacks: number | undefined;
  /** Set for a bar line. */
  readonly line?: BarLine;
}

/** Reads a line of music without errors. `plain` is the block with plain characters. */
export function atomsOfLine(plain: string, { from, to }: TextSpan): Atom[] {
  return atomsOfItems(plain, scanMusic(plain, from, to, []), to);
}

function atomsOfItems(plain: string, items: readonly Item[], to: number): Atom[] {
  return items.flatMap((item, index) => {
    const { span } = item;
    // Marks are behind the span of their note, and belong to its text.
    const text = plain.slice(span.from, items[index + 1]?.span.from ?? to).trim();
    return atomsOfItem(plain, item, text, items[index - 1]);
  });
}

function atomsOfItem(plain: string, item: Item, text: string, before: Item | undefined): Atom[] {
  const alone = (written: string, attacks: number | undefined): Atom[] => [{ text: written, joined: false, attacks }];
  switch (item.kind) {
    case 'note':
      return alone(cleanNote(text), 1);
    case 'quote':
      return alone(cleanQuotation(text), undefined);
    case 'chord':
      return alone(`"${item.text}"`, 0);
    case 'bar':
      return [{ text, joined: false, attacks: 0, line: item }];
    case 'glide':
      return [{ text, joined: before !== undefined && /\S/.test(plain.charAt(item.span.from - 1)), attacks: 0 }];
    case 'group':
      return atomsOfGroup(plain, item, text);
    default:
      return alone(text, 0);
  }
}

function atomsOfGroup(plain: string, { items, span }: Item & { kind: 'group' }, text: string): Atom[] {
  const close = text.lastIndexOf('}');
  const inside = atomsOfItems(plain, items, span.from + close);
  const count = text.slice(close);
  if (inside.length === 0) return [{ text: `{${count}`, joined: false, attacks: 0 }];
  return inside.map((atom, index) => ({
    ...atom,
    text: `${index === 0 ? '{' : ''}${atom.text}${index === inside.length - 1 ? count : ''}`,
  }));
}

/** `-(1 2 3)[slap accent]`. */
function cleanNote(written: string): string {
  const text = written.replace(/[″‴]/g, (sign) => "'".repeat(BEND_SIGNS[sign] ?? 1));
  const head = /^[^[]*/.exec(text)?.[0] ?? '';
  const clean = head.replace(
    /\(([^)]*)\)/,
    (_, holes: string) =>
      `(${holes
        .split(/[\s,]+/)
        .filter(Boolean)
        .join(' ')})`,
  );
  return clean + cleanMarks(text.slice(head.length));
}

/** `<lick to "IV7">[accent]`. */
function cleanQuotation(text: string): string {
  const close = text.indexOf('>');
  const named = text
    .slice(1, close)
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/\s?:\s?/, ':');
  return `<${named}>${cleanMarks(text.slice(close + 1))}`;
}

const cleanMarks = (text: string): string =>
  text.replace(/\[([^\]]*)\]/g, (_, words: string) => {
    const kept = words.split(/[\s,]+/).filter(Boolean);
    return kept.length === 0 ? '' : `[${kept.join(' ')}]`;
  });
