/**
 * What is nested deeper, or is more, than the reader of MDX can follow: it takes the square of the depth and of the number of
 * tags and braces, and far enough down it ends the process. No lesson comes near, so a rough count is enough.
 */
import type { MdastNode } from 'satteri';
import { lineFrom } from './line.ts';

/** Of brackets and tags. */
const DEEPEST = 1000;
/** Of quotations, lists and whatever else is in one another. */
const DEEPEST_TREE = 100;

/** Of opening tags, of other opening angle brackets, and of opening braces, in the whole text. */
const MOST_SIGNS = 10_000;

/** Where a text is nested deeper than a parser can follow. */
export interface TooDeep {
  /** Where it gets too deep. */
  readonly at: number;
  readonly what: string;
  /** Whether not even plain Markdown can be read from it. */
  readonly unreadable: boolean;
}

/** Found in the text, before it is parsed. */
export function tooDeepIn(source: string): TooDeep | undefined {
  const text = withoutFenced(source);
  let [brackets, tags, signs] = [0, 0, 0];
  for (const { 0: sign, index } of text.matchAll(/[()[\]{}]|<\/?[A-Za-z][^<>]{0,1000}>|</g)) {
    if (/^[<{](?!\/)/.test(sign) && ++signs > MOST_SIGNS)
      return { at: index, what: `This is the text’s tag or brace number ${MOST_SIGNS + 1}`, unreadable: true };
    if (sign === '<') continue;
    if (sign.startsWith('<')) {
      if (!sign.endsWith('/>')) tags = sign.startsWith('</') ? Math.max(0, tags - 1) : tags + 1;
      if (tags > DEEPEST)
        return { at: index, what: `More than ${DEEPEST} tags are open here at once`, unreadable: true };
    } else {
      brackets = '([{'.includes(sign) ? brackets + 1 : Math.max(0, brackets - 1);
      if (brackets > DEEPEST)
        return { at: index, what: `More than ${DEEPEST} brackets are open here at once`, unreadable: false };
    }
  }
  for (const { 0: marks, index } of text.matchAll(/^[ \t]*(?:(?:>|(?:[-+*]|\d{1,9}[.)])(?=[ \t]))[ \t]*)+/gm)) {
    const depth = marks.match(/[^\s\d.)]|\d+[.)]/g)?.length ?? 0;
    if (depth <= DEEPEST_TREE) continue;
    // A rule may be drawn with any number of the same dashes or stars.
    const isRule = /^[ \t]*([-*])(?:[ \t]*\1)*[ \t]*$/.test(text.slice(index, lineFrom(text, index).to));
    if (!isRule) return { at: index, what: IN_ONE_ANOTHER, unreadable: true };
  }
  return undefined;
}

/** The text with blanks for all lines within fences: what is in a block is no tag, bracket or list. */
function withoutFenced(text: string): string {
  let open: string | undefined;
  return text.replace(/[^\r\n]+/g, (line) => {
    const fence = /^[ \t>]*(`{3,}|~{3,})([^`]*)$/.exec(line);
    const [, marks = '', word = ''] = fence ?? [];
    if (open === undefined) {
      if (fence) open = marks;
      return line;
    }
    // A fence is closed by as many of the same signs or more, and nothing else on the line.
    if (fence && marks.startsWith(open) && word.trim() === '') open = undefined;
    return ' '.repeat(line.length);
  });
}

/** Found in the parsed tree. */
export function tooDeepUnder(root: MdastNode): TooDeep | undefined {
  const waiting: (readonly [MdastNode, number])[] = [[root, 0]];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [node, depth] = next;
    if (depth > DEEPEST_TREE) return { at: node.position?.start.offset ?? 0, what: IN_ONE_ANOTHER, unreadable: false };
    if ('children' in node) for (const child of node.children) waiting.push([child, depth + 1]);
  }
  return undefined;
}

const IN_ONE_ANOTHER = `More than ${DEEPEST_TREE} quotations, lists or elements are in one another here`;
