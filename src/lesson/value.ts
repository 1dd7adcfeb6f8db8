/** Values in braces: a lesson may hold a text, a number, a list or a record as it is, and nothing to compute. */
import { type Expression, parse, type SpreadElement } from 'acorn';
import type { TextSpan } from '../diagnostics/diagnostic.ts';

/** A value an attribute may have: data only, no code. */
export type Value = string | number | boolean | null | undefined | readonly Value[] | { readonly [key: string]: Value };

/** The library's own test does not accept read-only lists. */
export const isList = (value: Value): value is readonly Value[] => Array.isArray(value);

/** Where what a list or a record holds is in the text, by its path there, the steps joined with `/` (`0/at`). */
export type ValueParts = ReadonlyMap<string, TextSpan>;

/** A value and its parts, or that the text is none. */
export type ValueRead = { readonly value: Value; readonly parts: ValueParts } | { readonly bad: true };

/** An attribute's value as the reader of MDX gives it: a text, what is in its braces, or nothing. */
export type AttributeValue = string | { readonly value: string } | null | undefined;

/** The text that an attribute gives, in quotation marks or in braces. */
export function attributeValueText(given: AttributeValue): string | undefined {
  const read = typeof given === 'string' ? { value: given } : given ? readValue(given.value) : undefined;
  return read && 'value' in read && typeof read.value === 'string' ? read.value : undefined;
}

/** The value written in braces (undefined for a mere comment), or `bad` where it would have to be computed. */
export function readValue(text: string): ValueRead {
  try {
    // In brackets a lone comment gives an empty list; the line break ends a comment that runs to the line's end.
    // A lesson is compiled to a module, where `<!--` is two operators; in a script it would begin a comment.
    const [statement, ...others] = parse(`[${text}\n]`, { ecmaVersion: 2024, sourceType: 'module' }).body;
    const list = statement?.type === 'ExpressionStatement' ? statement.expression : undefined;
    if (others.length > 0 || list?.type !== 'ArrayExpression' || list.elements.length > 1) return { bad: true };
    const parts = new Map<string, TextSpan>();
    const place: Place = (path, { start, end }) => {
      // A bracket was put before the text.
      parts.set(path.join('/'), { from: start - 1, to: end - 1 });
    };
    const value = list.elements.length === 0 ? undefined : literal(list.elements[0], [], place);
    return { value, parts };
  } catch {
    return { bad: true };
  }
}

type Path = readonly (string | number)[];
type Place = (path: Path, node: { readonly start: number; readonly end: number }) => void;

/** Throws what {@link readValue} catches: something to compute. */
function literal(node: Expression | SpreadElement | null | undefined, path: Path, place: Place): Value {
  if (node) place(path, node);
  switch (node?.type) {
    case 'Literal':
      if (typeof node.value === 'object' && node.value !== null) break;
      if (typeof node.value === 'bigint') break;
      return node.value;
    case 'TemplateLiteral':
      if (node.expressions.length > 0) break;
      return node.quasis[0]?.value.cooked ?? '';
    case 'UnaryExpression': {
      const value = literal(node.argument, path, () => {});
      if (node.operator !== '-' || typeof value !== 'number') break;
      return -value;
    }
    case 'ArrayExpression':
      return node.elements.map((element, index) => literal(element, [...path, index], place));
    case 'ObjectExpression':
      return Object.fromEntries(
        node.properties.map((property): [string, Value] => {
          if (property.type !== 'Property' || property.computed || property.kind !== 'init')
            throw new TypeError('computed');
          const key =
            property.key.type === 'Identifier' ? property.key.name : String(literal(property.key, path, () => {}));
          // Where the name is: its path with a colon, which no name of a key ends with.
          place([...path, `${key}:`], property.key);
          return [key, literal(property.value, [...path, key], place)];
        }),
      );
  }
  throw new TypeError('computed');
}
