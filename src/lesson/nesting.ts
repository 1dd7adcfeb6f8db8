/**
 * What is nested deeper than the reader of MDX can follow: it takes the square of the depth, and far enough down it ends
 * the process. No lesson comes near, so a rough count is enough.
 */
import type { MdastNode } from 'satteri';
import { lineFrom } from './line.ts';

/** Of brackets and tags. */
const DEEPEST = 1000;
/** Of quotations, lists and whatever else is in one another. */
const DEEPEST_TREE = 100;

/** Where a text is nested deeper than a parser can follow. */
export interface TooDeep {
  /** Where it gets too deep. */
  readonly at: number;
  readonly what: string;
  /** Whether not even plain Markdown can be read from it. */
  readonly unreadable: boolean;
}

/** Found in the text, before it is parsed. */
export function tooDeepIn(text: string): TooDeep | undefined {
  let [brackets, tags] = [0, 0];
  for (const { 0: sign, index } of text.matchAll(/[()[\]{}]|<\/?[A-Za-z][^<>]{0,1000}>/g)) {
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
