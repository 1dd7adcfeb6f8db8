/** Values in braces: a lesson may hold a text, a number, a list or a record as it stands, and nothing to compute. */
import { type Expression, parse, type SpreadElement } from 'acorn';

export type Value = string | number | boolean | null | undefined | readonly Value[] | { readonly [key: string]: Value };

/** The value written in braces (undefined for a mere comment), or `bad` where it would have to be computed. */
export function readValue(text: string): { readonly value: Value } | { readonly bad: true } {
  try {
    // In brackets a comment alone is a list of nothing; the line break ends a comment that runs to the line's end.
    const [statement] = parse(`[${text}\n]`, { ecmaVersion: 2024 }).body;
    const list = statement?.type === 'ExpressionStatement' ? statement.expression : undefined;
    if (list?.type !== 'ArrayExpression' || list.elements.length > 1) return { bad: true };
    return { value: list.elements.length === 0 ? undefined : literal(list.elements[0]) };
  } catch {
    return { bad: true };
  }
}

/** Throws what {@link readValue} catches: something to compute. */
function literal(node: Expression | SpreadElement | null | undefined): Value {
  switch (node?.type) {
    case 'Literal':
      if (typeof node.value === 'object' && node.value !== null) break;
      if (typeof node.value === 'bigint') break;
      return node.value;
    case 'TemplateLiteral':
      if (node.expressions.length > 0) break;
      return node.quasis[0]?.value.cooked ?? '';
    case 'UnaryExpression': {
      const value = literal(node.argument);
      if (node.operator !== '-' || typeof value !== 'number') break;
      return -value;
    }
    case 'ArrayExpression':
      return node.elements.map(literal);
    case 'ObjectExpression':
      return Object.fromEntries(
        node.properties.map((property): [string, Value] => {
          if (property.type !== 'Property' || property.computed || property.kind !== 'init')
            throw new TypeError('computed');
          const key =
            property.key.type === 'Identifier' ? property.key.name : String(literal(property.key as Expression));
          return [key, literal(property.value)];
        }),
      );
  }
  throw new TypeError('computed');
}
