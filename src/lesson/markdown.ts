/** A lesson's Markdown as a tree, and the ways through it. */
import { type MdastNode, markdownToMdast, mdxToMdast } from 'satteri';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import type { Placed } from '../diagnostics/place.ts';
import { itemAt } from '../values/checked.ts';
import { withoutFrontMatter } from './front-matter.ts';
import { type TooDeep, tooDeepIn, tooDeepUnder } from './nesting.ts';
import { LESSON_PROBLEMS } from './problems.ts';

/** A parsed lesson, with its syntax errors. */
export interface MarkdownRead {
  readonly root: MdastNode;
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(LESSON_PROBLEMS);

/** Where a node is in the text, in UTF-16 offsets. */
export const spanOf = (node: MdastNode): TextSpan => ({
  from: node.position?.start.offset ?? 0,
  to: node.position?.end.offset ?? 0,
});

/** All nodes, in the order they are written. Not recursive: a text may be nested deeper than the stack. */
export function* nodesOf(root: MdastNode): Generator<MdastNode> {
  const waiting: MdastNode[] = [root];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    yield node;
    if ('children' in node) for (let i = node.children.length - 1; i >= 0; i--) waiting.push(itemAt(node.children, i));
  }
}

/** The text of a node and everything in it, without markup. */
export function markdownText(root: MdastNode): string {
  let text = '';
  for (const node of nodesOf(root)) if ('value' in node) text += node.value;
  return text;
}

/**
 * The text as the reader of MDX can be given it: no character changes its place. Two things would end the process inside the reader:
 * half a surrogate pair, which no file holds, and a text that ends with a backslash inside a quotation of code.
 */
export function readableText(source: string): string {
  const text = source.toWellFormed();
  return text.endsWith('\\') ? `${text}\n` : text;
}

/** The lesson as MDX; where that fails, as plain Markdown, so that its blocks are checked all the same. */
export function readMarkdown(source: string, placed: Placed): MarkdownRead {
  const text = readableText(withoutFrontMatter(source));
  const deep = tooDeepIn(text);
  if (deep) {
    const root: MdastNode = deep.unreadable ? NOTHING : markdownToMdast(text, OPTIONS);
    return { root, diagnostics: [tooDeep(deep)] };
  }
  try {
    const root = mdxToMdast(text, OPTIONS);
    const under = tooDeepUnder(root);
    return { root, diagnostics: under ? [tooDeep(under)] : [] };
  } catch (error) {
    const mistake = syntaxProblem(error instanceof Error ? error.message : String(error), source, placed);
    return { root: markdownToMdast(text, OPTIONS), diagnostics: [mistake] };
  }
}

const OPTIONS = { position: true, features: { frontmatter: false } } as const;
const NOTHING: MdastNode = { type: 'root', children: [] };

const tooDeep = ({ at, what }: TooDeep): Diagnostic =>
  report('mdx-syntax', { from: at, to: at + 1 }, { what: `${what}, which no lesson needs.`, fix: TOO_DEEP });
const TOO_DEEP = 'Remove what does not belong here.';

/** The MDX reader says `line:column: what is wrong (its rule)` and nothing else. */
function syntaxProblem(message: string, source: string, placed: Placed): Diagnostic {
  const [, line = '1', column = '1', reason = message] =
    /^(\d+):(\d+): (.*?)(?: \([\w-]+:[\w-]+\))?$/s.exec(message) ?? [];
  // The reader may count on to the place behind the last character.
  const from = Math.min(
    Math.max(0, source.length - 1),
    (placed.lines[Number(line) - 1]?.offset ?? 0) + Number(column) - 1,
  );
  const tag = /^<\/?[\w.:-]*>?/.exec(source.slice(from, from + 80))?.[0];
  const span = { from, to: Math.min(source.length, from + (tag?.length ?? 1)) };
  const name = /`<\/?([^>`]*)>`/.exec(reason)?.[1] ?? '';
  const found = MISTAKES.find(([pattern]) => pattern.test(reason));
  // What began within a line ends with its paragraph, so that a tag below an empty line closes nothing.
  const mistake = found === NOT_CLOSED && source.includes(`</${name}>`, from) ? CLOSED_TOO_LATE : found;
  const [what, fix] = mistake
    ? mistake.slice(1).map((words) => words?.toString().replaceAll('NAME', name))
    : [`This is not MDX: ${reason}.`];
  return report('mdx-syntax', span, { what: what ?? reason, fix });
}

type Mistake = readonly [said: RegExp, what: string, fix: string];

const NOT_CLOSED: Mistake = [
  /^Expected a closing tag for/,
  'The component <NAME> that begins here is not closed.',
  'Close it: <NAME /> or </NAME>. For the sign itself write \\< .',
];
const CLOSED_TOO_LATE: Mistake = [
  NOT_CLOSED[0],
  'The component <NAME> that begins here is not closed in its paragraph.',
  'Write <NAME> and </NAME> each on a line of its own, or close it above the empty line.',
];

/** What the MDX reader says, and what it means to a teacher. */
const MISTAKES: readonly Mistake[] = [
  NOT_CLOSED,
  [
    /^Unexpected closing tag .* expected an open tag/,
    'Nothing is open here that </NAME> could close.',
    'Remove it, or open <NAME> before it.',
  ],
  [
    /^Unexpected closing tag/,
    '</NAME> closes something other than what was opened last.',
    'Close components in the reverse order of opening them.',
  ],
  [
    /^Unexpected end of file in expression/,
    'The brace that begins here is not closed.',
    'For a brace in the text write \\{ .',
  ],
  [
    /^Could not parse expression/,
    'What is in these braces is no value.',
    "A text is in quotation marks, as in '1:42'. For a brace in the text write \\{ .",
  ],
  [/create a comment in MDX/, 'A comment is written in another way in MDX.', 'Write {/* … */}.'],
  [
    /^Unexpected character after `<`/,
    'A < begins a component here, and what follows is none.',
    'For the sign itself write \\< , and a web address as [text](https://…).',
  ],
];
