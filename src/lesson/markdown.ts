/** A lesson's Markdown as a tree, and the ways through it. */
import { type MdastNode, markdownToMdast, mdxToMdast } from 'satteri';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, Fix, TextEdit, TextSpan } from '../diagnostics/diagnostic.ts';
import { applyEdits, editsFit } from '../diagnostics/edit.ts';
import { type Placed, placeOf } from '../diagnostics/place.ts';
import { itemAt } from '../values/checked.ts';
import { withoutFrontMatter } from './front-matter.ts';
import { type TooDeep, tooDeepIn, tooDeepUnder } from './nesting.ts';
import { LESSON_PROBLEMS } from './problems.ts';
import { tagMistake, unclosedTag } from './tag-mistake.ts';
import type { WritingMistake } from './value-mistake.ts';

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
    const mistake = syntaxProblem(error instanceof Error ? error.message : String(error), text, placed);
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
  const written = writingMistake(reason, source, from);
  if (written) {
    const { span, what, fix, edits } = written;
    return report(
      'mdx-syntax',
      span,
      { what, fix },
      edits && editsFit(source, edits) ? fixOf(source, edits, from) : undefined,
    );
  }
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

/** The mistake at the sign itself, where the text shows it. */
function writingMistake(reason: string, source: string, from: number): WritingMistake | undefined {
  if (/create a comment in MDX/.test(reason)) return commentMistake(source, from);
  const name = /^Expected a closing tag for `<([^>`]*)>`/.exec(reason)?.[1];
  if (name !== undefined) return unclosedTag(source, from, name);
  if (/^Unexpected character after `<`/.test(reason)) return tagMistake(source, from);
  if (!/^(?:Could not parse expression|Unexpected end of file in expression)/.test(reason)) return undefined;
  // The braces may be those of an attribute.
  const tag = source.slice(Math.max(0, from - 5000), from).lastIndexOf('<');
  const start = tag < 0 ? -1 : Math.max(0, from - 5000) + tag;
  const found = start < 0 || !/^<[A-Z]/.test(source.slice(start, start + 2)) ? undefined : tagMistake(source, start);
  return found;
}

/** A comment as in HTML. */
function commentMistake(source: string, from: number): WritingMistake | undefined {
  if (!source.startsWith('<!--', from)) return undefined;
  const close = source.indexOf('-->', from);
  const mistake = {
    span: { from, to: from + 4 },
    what: 'A comment is written in another way in MDX.',
    fix: 'Write {/* … */}.',
  };
  if (close < 0 || source.slice(from, close).includes('*/')) return mistake;
  const edits = [
    { span: { from, to: from + 4 }, text: '{/*' },
    { span: { from: close, to: close + 3 }, text: '*/}' },
  ];
  return { ...mistake, edits };
}

/** Edits are certain where they leave no mistake, or only others behind them. */
function fixOf(source: string, edits: readonly TextEdit[], from: number): Fix {
  const edited = applyEdits(source, edits);
  try {
    mdxToMdast(readableText(edited), OPTIONS);
    return { edits, certain: true };
  } catch (error) {
    const [, line = '1', column = '1'] = /^(\d+):(\d+)/.exec(error instanceof Error ? error.message : '') ?? [];
    const { lines } = placeOf(edited);
    const at = (lines[Number(line) - 1]?.offset ?? 0) + Number(column) - 1;
    const end = Math.max(from, ...edits.map(({ span }) => span.to));
    return { edits, certain: at > end };
  }
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
