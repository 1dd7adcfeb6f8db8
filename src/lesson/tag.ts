/** Where the attributes of a component are: the MDX reader gives their values, not their places. */
import type { TextSpan } from '../diagnostics/diagnostic.ts';

/** Where an attribute is in a tag. */
export interface AttributeSpan {
  /** Undefined for `{...}`. */
  readonly name: string | undefined;
  readonly nameSpan: TextSpan;
  /** What is between its quotation marks or braces. */
  readonly valueSpan: TextSpan;
}

/** The attributes of the tag that begins at `from`, which the MDX reader has found to be well-formed. */
export function attributesAt(source: string, from: number): readonly AttributeSpan[] {
  const found: AttributeSpan[] = [];
  let at = after(source, /<\s*[^\s/>{]*/y, from);
  for (;;) {
    at = afterBlanks(source, from, at);
    const first = source[at];
    if (first === undefined || first === '>' || first === '/') return found;
    if (first === '{') {
      const end = afterBraces(source, at);
      found.push({ name: undefined, nameSpan: { from: at, to: end }, valueSpan: { from: at, to: end } });
      at = end;
      continue;
    }
    const nameEnd = after(source, /[^\s=/>{]+/y, at);
    if (nameEnd === at) return found;
    const nameSpan = { from: at, to: nameEnd };
    const name = source.slice(at, nameEnd);
    const valueAt = after(source, /\s*=\s*/y, nameEnd);
    if (valueAt === nameEnd) {
      found.push({ name, nameSpan, valueSpan: nameSpan });
      at = nameEnd;
      continue;
    }
    const quote = source[valueAt];
    if (quote === undefined) return found;
    const end = quote === '{' ? afterBraces(source, valueAt) : source.indexOf(quote, valueAt + 1) + 1;
    if (end <= valueAt) return found;
    found.push({ name, nameSpan, valueSpan: { from: valueAt + 1, to: end - 1 } });
    at = end;
  }
}

/** Past white space. Inside a quotation each line of a tag begins with its mark; elsewhere a > there ends the tag. */
function afterBlanks(source: string, tag: number, at: number): number {
  const end = after(source, /\s*/y, at);
  if (source[end] !== '>' || !/[\r\n]/.test(source.slice(at, end))) return end;
  // Only here is the beginning of the line looked for, which may be far back.
  const lineStart = Math.max(source.lastIndexOf('\n', tag - 1), source.lastIndexOf('\r', tag - 1)) + 1;
  return /^[ \t]*>/.test(source.slice(lineStart, tag)) ? after(source, /(?:[\r\n][ \t]*>|\s)*/y, at) : end;
}

function after(source: string, pattern: RegExp, at: number): number {
  pattern.lastIndex = at;
  return at + (pattern.exec(source)?.[0].length ?? 0);
}

/** Past the brace that closes the one at `from`; braces in texts and comments do not count. */
function afterBraces(source: string, from: number): number {
  const token = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:\\.|[^'\\])*'|"(?:\\.|[^"\\])*"|`(?:\\.|[^`\\])*`|[{}]/g;
  token.lastIndex = from;
  let depth = 0;
  for (let match = token.exec(source); match; match = token.exec(source)) {
    depth += match[0] === '{' ? 1 : match[0] === '}' ? -1 : 0;
    if (depth === 0) return token.lastIndex;
  }
  return source.length;
}
