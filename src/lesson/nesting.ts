/**
 * What is nested deeper, or is more, than the reader of MDX can follow: it takes the square of the depth and of the number of
 * tags, braces and references to characters, and far enough down it ends the process. From a line that may begin a program it reads
 * again what it has at every empty line. No lesson comes near, so a rough count is enough.
 */
import type { MdastNode } from 'satteri';
import { lineFrom } from './line.ts';

/** Of brackets and tags. */
const DEEPEST = 1000;
/** Of quotations, lists and whatever else is in one another. */
const DEEPEST_TREE = 100;

/** Of opening tags, of other opening angle brackets, and of opening braces, in the whole text. */
const MOST_SIGNS = 10_000;
/** Of references to characters, such as `&amp;`, in the whole text. */
const MOST_REFERENCES = 10_000;
/** Of characters that are read for a program, again after each empty line. */
const LONGEST_PROGRAM = 1e8;

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
  const program = longProgramIn(text);
  if (program) return program;
  let [brackets, tags, signs, references] = [0, 0, 0, 0];
  for (const { 0: sign, index } of text.matchAll(/[()[\]{}]|<\/?[A-Za-z][^<>]{0,1000}>|<|&(?=[#A-Za-z])/g)) {
    if (sign === '&') {
      if (++references > MOST_REFERENCES)
        return {
          at: index,
          what: `This is the text’s reference to a character number ${references}`,
          unreadable: true,
        };
      continue;
    }
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

/** A line that may begin a program, with so much after it that it would take seconds to read it as one. */
function longProgramIn(text: string): TooDeep | undefined {
  const at = text.search(/^(?:import|export)\b/m);
  if (at < 0) return undefined;
  const after = text.slice(at);
  const empty = after.match(/(?:\r\n|\r|\n)[ \t]*(?=\r|\n)/g)?.length ?? 0;
  if (empty * after.length <= LONGEST_PROGRAM) return undefined;
  return { at, what: 'A program would begin here, and more comes after it than could be one', unreadable: true };
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
