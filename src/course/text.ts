/**
 * What stands in a lesson's file: its front matter as YAML, its blocks, links and headings, each with its place, and
 * what can be seen to be wrong without knowing the rest of the course.
 */
import GithubSlugger from 'github-slugger';
import { type MdastNode, markdownToMdast, mdxToMdast } from 'satteri';
import { type Diagnostic, nearest, reporter, type Span } from '../diagnostics/diagnostic.ts';
import { type Placed, placeOf, pointAt, type Range } from '../diagnostics/place.ts';
import { parseBlock } from '../notation/parse.ts';
import type { BlockTree } from '../notation/tree.ts';
import type { ComponentText, WrittenAttribute } from './attributes.ts';
import { ADDRESS_ATTRIBUTES, COMPONENTS, REFUSED_ELEMENTS } from './component.ts';
import { destinationSpan } from './destination.ts';
import { fenceFault, placedInFence } from './fence.ts';
import type { Reference } from './link.ts';
import { COURSE_PROBLEMS } from './problems.ts';
import { type AttributeSpan, attributesAt } from './tag.ts';
import { readValue, type Value } from './value.ts';
import { readYaml, type YamlRead } from './yaml.ts';

/** `slug` is its anchor on the page. */
export interface Heading {
  readonly depth: number;
  readonly text: string;
  readonly slug: string;
}

/** A block as it stands in its lesson, read and not yet understood. */
export interface BlockText {
  readonly text: string;
  readonly placed: Placed;
  readonly range: Range;
  /** Empty for a block whose fence is not closed. */
  readonly tree: BlockTree;
  readonly closed: boolean;
}

export interface LessonText {
  readonly source: string;
  readonly placed: Placed;
  readonly front: YamlRead & { /** Whether there is any. */ readonly written: boolean };
  readonly blocks: readonly BlockText[];
  readonly references: readonly Reference[];
  /** The components among what the lesson says, in order. */
  readonly components: readonly ComponentText[];
  readonly headings: readonly Heading[];
  /** Spans count from the start of the file. */
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(COURSE_PROBLEMS);

export function readLessonText(source: string): LessonText {
  const placed = placeOf(source);
  const diagnostics: Diagnostic[] = [];
  const front = readFront(source, diagnostics);
  const blocks: BlockText[] = [];
  const references: Reference[] = [];
  const components: ComponentText[] = [];
  const headings: Heading[] = [];
  const slugger = new GithubSlugger();
  for (const node of nodesOf(readMarkdown(source, placed, diagnostics))) {
    const span = spanOf(node);
    switch (node.type) {
      case 'code':
        if (node.lang === 'tab') blocks.push(readFence(node, span));
        else if (/^tabs?$/i.test(node.lang ?? ''))
          diagnostics.push(report('fence-word', lineFrom(source, span.from), { word: node.lang ?? '' }));
        break;
      case 'heading': {
        const text = textOf(node);
        headings.push({ depth: node.depth, text, slug: slugger.slug(text) });
        break;
      }
      case 'link':
      case 'definition':
        references.push({ url: node.url, span: destinationSpan(source, span, node.url), use: 'link' });
        break;
      case 'image':
        references.push({ url: node.url, span: destinationSpan(source, span, node.url), use: 'embed' });
        break;
      case 'mdxJsxFlowElement':
      case 'mdxJsxTextElement':
        readComponent(node, span);
        break;
      case 'mdxFlowExpression':
      case 'mdxTextExpression':
        checkExpression(node.value, span);
        break;
      case 'mdxjsEsm':
        diagnostics.push(
          report('lesson-code', lineFrom(source, span.from), {
            word: /^\s*export/.test(node.value) ? 'export' : 'import',
          }),
        );
        break;
    }
  }
  return { source, placed, front, blocks, references, components, headings, diagnostics };

  function readFence(node: MdastNode & { type: 'code' }, span: Span): BlockText {
    const { value: text } = node;
    const opening = lineFrom(source, span.from);
    const fault = fenceFault(source, span);
    if (fault) diagnostics.push(report('fence-open', opening, fault));
    if (node.meta) diagnostics.push(report('fence-rest', restSpan(opening, node.meta), { text: node.meta }));
    // A block that swallowed what follows it would have a fault in every line.
    const tree = fault ? nothing(text) : parseBlock(text);
    const range = { start: pointAt(placed, span.from), end: pointAt(placed, span.to) };
    return { text, placed: placedInFence(source, span, range.start.line, text), range, tree, closed: !fault };
  }

  function restSpan(opening: Span, meta: string): Span {
    const at = source.slice(opening.from, opening.to).lastIndexOf(meta);
    return at < 0 ? opening : { from: opening.from + at, to: opening.from + at + meta.length };
  }

  function checkExpression(text: string, span: Span): void {
    if ('bad' in readValue(text)) diagnostics.push(report('lesson-expression', span, { text: oneLine(text) }));
  }

  function readComponent(node: MdastNode & { type: 'mdxJsxFlowElement' | 'mdxJsxTextElement' }, span: Span): void {
    const name = node.name;
    if (name === null) return;
    const nameSpan = { from: source.indexOf(name, span.from), to: source.indexOf(name, span.from) + name.length };
    const component = Object.hasOwn(COMPONENTS, name) ? COMPONENTS[name] : undefined;
    if (REFUSED_ELEMENTS.has(name)) diagnostics.push(report('script-in-lesson', nameSpan, { name: `<${name}>` }));
    else if (!component && !/^[a-z][a-z0-9-]*$/.test(name)) {
      const known = Object.keys(COMPONENTS);
      diagnostics.push(report('component-unknown', nameSpan, { name, nearest: nearest(name, known), known }));
    }
    const written: WrittenAttribute[] = [];
    const spans = attributesAt(source, span.from);
    const aligned = spans.length === node.attributes.length;
    for (const [index, attribute] of node.attributes.entries()) {
      const place: AttributeSpan = (aligned ? spans[index] : undefined) ?? {
        name: undefined,
        nameSpan,
        valueSpan: nameSpan,
      };
      if (attribute.type !== 'mdxJsxAttribute') {
        diagnostics.push(report('lesson-expression', place.valueSpan, { text: oneLine(attribute.value) }));
        continue;
      }
      const value = readAttribute(name, attribute.name, attribute.value, place);
      const { nameSpan: key, valueSpan } = place;
      const verbatim = source.slice(valueSpan.from, valueSpan.to) === value;
      written.push({ name: attribute.name, value, verbatim, nameSpan: key, valueSpan });
    }
    if (component) components.push({ name, nameSpan, attributes: written });
    for (const [key, need] of Object.entries(component?.attributes ?? {})) {
      if (need === 'required' && !written.some((attribute) => attribute.name === key))
        diagnostics.push(report('component-key-missing', nameSpan, { component: name, key }));
    }
  }

  /** Checks an attribute, and gives its value: `true` where it has none. */
  function readAttribute(
    component: string,
    key: string,
    written: AttributeValue,
    { nameSpan, valueSpan }: AttributeSpan,
  ): Value {
    const known = COMPONENTS[component]?.attributes;
    if (known && !Object.hasOwn(known, key)) {
      const names = Object.keys(known);
      diagnostics.push(
        report('component-key', nameSpan, { component, key, nearest: nearest(key, names), known: names }),
      );
    }
    if (/^on[a-z]/i.test(key)) diagnostics.push(report('script-in-lesson', nameSpan, { name: key }));
    let value: Value = true;
    if (typeof written === 'string') value = written;
    else if (written) {
      const read = readValue(written.value);
      if ('bad' in read) diagnostics.push(report('lesson-expression', valueSpan, { text: oneLine(written.value) }));
      else value = read.value;
    }
    if (typeof value === 'string' && (ADDRESS_ATTRIBUTES.has(key) || /^(?:\.{0,2}\/)*media\//.test(value))) {
      const element = /^[a-z]/.test(component);
      references.push({ url: value, span: valueSpan, use: component === 'a' ? 'link' : element ? 'embed' : 'play' });
    }
    return value;
  }
}

type AttributeValue = string | { readonly value: string } | null | undefined;

const nothing = (text: string): BlockTree => ({
  text,
  header: new Map(),
  music: [],
  phrases: new Map(),
  diagnostics: [],
});

const oneLine = (text: string): string => {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 40)}…` : line;
};

/** From an offset to the end of its line. */
function lineFrom(source: string, from: number): Span {
  const length = source.slice(from).search(/\r|\n|$/);
  return { from, to: from + length };
}

const spanOf = (node: MdastNode): Span => ({
  from: node.position?.start.offset ?? 0,
  to: node.position?.end.offset ?? 0,
});

/** All nodes, in the order they are written. Not recursive: a text may be nested deeper than the stack. */
function* nodesOf(root: MdastNode): Generator<MdastNode> {
  const waiting: MdastNode[] = [root];
  for (let node = waiting.pop(); node; node = waiting.pop()) {
    yield node;
    if ('children' in node)
      for (let i = node.children.length - 1; i >= 0; i--) waiting.push(node.children[i] as MdastNode);
  }
}

function textOf(root: MdastNode): string {
  let text = '';
  for (const node of nodesOf(root)) if ('value' in node) text += node.value;
  return text;
}

const FENCE = /^---[ \t]*$/;

/** The front matter, which begins in the first line or not at all. */
function readFront(source: string, diagnostics: Diagnostic[]): LessonText['front'] {
  const none = { value: {}, spans: new Map(), diagnostics: [], written: false };
  const first = lineFrom(source, 0);
  if (!FENCE.test(source.slice(0, first.to))) {
    diagnostics.push(report('front-missing', { from: 0, to: 0 }, { late: /^\s*---[ \t]*[\r\n]/.test(source) }));
    return none;
  }
  const from = nextLine(source, first.to);
  for (let at = from; at < source.length; ) {
    const line = lineFrom(source, at);
    if (FENCE.test(source.slice(at, line.to))) return { ...readYaml(source, from, at), written: true };
    at = nextLine(source, line.to);
  }
  diagnostics.push(report('front-open', first, {}));
  return none;
}

const nextLine = (source: string, lineEnd: number): number => lineEnd + (source.startsWith('\r\n', lineEnd) ? 2 : 1);

/** The lesson as MDX; where that fails, as plain Markdown, so that its blocks are checked all the same. */
function readMarkdown(source: string, placed: Placed, diagnostics: Diagnostic[]): MdastNode {
  // Half a surrogate pair, which no file holds, would end the process inside the reader. A text of as many units stands in.
  const text = source.toWellFormed();
  try {
    return mdxToMdast(text, { position: true });
  } catch (error) {
    diagnostics.push(syntaxProblem((error as Error).message, source, placed));
  }
  return markdownToMdast(text, { position: true });
}

/** The MDX reader says `line:column: what is wrong (its rule)` and nothing else. */
function syntaxProblem(message: string, source: string, placed: Placed): Diagnostic {
  const [, line = '1', column = '1', rest = message] =
    /^(\d+):(\d+): (.*?)(?: \([\w-]+:[\w-]+\))?$/s.exec(message) ?? [];
  const from = Math.min(source.length, (placed.lines[Number(line) - 1]?.offset ?? 0) + Number(column) - 1);
  const tag = /^<\/?[\w.:-]*>?/.exec(source.slice(from, from + 80))?.[0];
  const span = { from, to: from + (tag?.length ?? 1) };
  const slip = SLIPS.find(([pattern]) => pattern.test(rest));
  const name = /`<\/?([^>`]*)>`/.exec(rest)?.[1] ?? '';
  const [what, mend] = slip
    ? slip.slice(1).map((words) => words?.toString().replaceAll('NAME', name))
    : [`This is not MDX: ${rest}.`];
  return report('mdx-syntax', span, { what: what ?? rest, mend });
}

/** What the MDX reader says, and what it means to a teacher. */
const SLIPS: readonly (readonly [RegExp, string, string])[] = [
  [
    /^Expected a closing tag for/,
    'The component <NAME> that begins here is not closed.',
    'Close it: <NAME /> or </NAME>. For the sign itself write \\< .',
  ],
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
  [/^Could not parse expression/, 'What stands in these braces is no value.', 'For a brace in the text write \\{ .'],
  [/create a comment in MDX/, 'A comment is written in another way in MDX.', 'Write {/* … */}.'],
  [
    /^Unexpected character after `<`/,
    'A < begins a component here, and what follows is none.',
    'For the sign itself write \\< , and a web address as [text](https://…).',
  ],
];
