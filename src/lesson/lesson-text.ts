/**
 * What is in a lesson's file: its front matter as YAML, its blocks, links and headings, each with its place, and the
 * problems that can be found without the rest of the course.
 */
import GithubSlugger from 'github-slugger';
import type { MdastNode } from 'satteri';
import { reporter } from '../diagnostics/catalogue.ts';
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly } from '../diagnostics/edit.ts';
import { type Placed, placeOf, pointAt, type SourceRange } from '../diagnostics/place.ts';
import { parseBlock } from '../notation/parse.ts';
import type { BlockTree } from '../notation/tree.ts';
import { append } from '../values/append.ts';
import { COMPONENTS } from './component.ts';
import { type ComponentText, readComponent } from './component-text.ts';
import { destinationSpan } from './destination.ts';
import { fenceFault, placedInFence } from './fence.ts';
import { type FrontMatter, readFrontMatter } from './front-matter.ts';
import { lineFrom, oneLine } from './line.ts';
import { lostBlockIn } from './lost-block.ts';
import { lostLinksIn } from './lost-link.ts';
import { markdownText, nodesOf, readMarkdown, spanOf } from './markdown.ts';
import { LESSON_PROBLEMS } from './problems.ts';
import type { Reference } from './reference.ts';
import { readValue } from './value.ts';

/** A heading as it is written. */
export interface HeadingText {
  readonly depth: number;
  /** Its anchor on the page: from the text as written, so that it stays when what a component says changes. */
  readonly slug: string;
  readonly span: TextSpan;
  /** Its text without markup, and between it where the components start that say something. */
  readonly parts: readonly (string | number)[];
}

/** A block as it is in its lesson, parsed and not yet evaluated. */
export interface BlockText {
  readonly text: string;
  readonly placed: Placed;
  readonly range: SourceRange;
  /** Empty for a block whose fence is not closed. */
  readonly tree: BlockTree;
  readonly closed: boolean;
}

/** One MDX file as text with positions, before anything in it is evaluated. */
export interface LessonText {
  readonly source: string;
  readonly placed: Placed;
  readonly frontMatter: FrontMatter;
  readonly blocks: readonly BlockText[];
  readonly references: readonly Reference[];
  /** The components among what the lesson says, in order. */
  readonly components: readonly ComponentText[];
  readonly headings: readonly HeadingText[];
  /** The running text, piece by piece, without what components enclose. */
  readonly prose: readonly TextSpan[];
  /** What is wrong outside the front matter. Spans count from the start of the file. */
  readonly diagnostics: readonly Diagnostic[];
}

const report = reporter(LESSON_PROBLEMS);

/** Reads the text of a lesson. Never throws: problems are in its diagnostics. */
export function readLessonText(source: string): LessonText {
  const placed = placeOf(source);
  const { root, diagnostics: mistakes } = readMarkdown(source, placed);
  const diagnostics: Diagnostic[] = [...mistakes];
  const blocks: BlockText[] = [];
  const references: Reference[] = [];
  const components: ComponentText[] = [];
  const prose: TextSpan[] = [];
  /** Where the last link and the last component end. */
  let linkEnd = 0;
  let componentEnd = 0;
  /** Where text ends that reads as a block and is none. */
  let lostEnd = 0;
  const headings: HeadingText[] = [];
  const slugger = new GithubSlugger();
  /** Definitions of addresses and the pictures that refer to one, by the name they have in common. */
  const definitions: { readonly identifier: string; readonly reference: number }[] = [];
  const pictured = new Set<string>();
  const frontMatter = readFrontMatter(source);
  /** Whether what is read may still be front matter, whose end is missing. */
  let isFront = frontMatter.diagnostics.some(({ code }) => code === 'front-matter-unclosed');
  for (const node of nodesOf(root)) {
    const span = spanOf(node);
    if (node.type === 'code' || node.type === 'heading') isFront = false;
    switch (node.type) {
      case 'code':
        if (node.lang === 'tab') blocks.push(readFence(node, span));
        else if (/^tabs?$/i.test(node.lang ?? ''))
          diagnostics.push(otherWord(lineFrom(source, span.from), node.lang ?? ''));
        else readPlainFence(node, span);
        break;
      case 'text':
      case 'inlineCode':
        if (node.type === 'text') append(diagnostics, unmarkedIn(span));
        // What reads as a block is no prose.
        if (span.from >= componentEnd && span.from >= lostEnd) prose.push(span);
        break;
      case 'paragraph': {
        const lost = lostBlockIn(source.slice(span.from, span.to));
        if (lost) {
          const place = { from: span.from + lost.from, to: span.from + lost.to };
          if (!isFront && !isBehindLost(span)) diagnostics.push(report('block-lost', place, { how: 'bare' }));
          lostEnd = span.to;
        }
        break;
      }
      case 'heading': {
        const slug = slugger.slug(markdownText(node).trim());
        headings.push({ depth: node.depth, slug, span, parts: partsOf(node) });
        break;
      }
      case 'definition':
        definitions.push({ identifier: node.identifier, reference: references.length });
        references.push({ url: node.url, span: destinationSpan(source, span, node.url), use: 'link' });
        break;
      case 'link':
      case 'linkReference':
        linkEnd = span.to;
        if (node.type === 'link')
          references.push({ url: node.url, span: destinationSpan(source, span, node.url), use: 'link' });
        break;
      case 'image':
        references.push({ url: node.url, span: destinationSpan(source, span, node.url), use: 'embed' });
        if (!node.alt?.trim()) diagnostics.push(report('picture-alt', span, { url: node.url }));
        describedIn(span, node.alt);
        break;
      case 'imageReference':
        pictured.add(node.identifier);
        if (!node.alt?.trim()) diagnostics.push(report('picture-alt', span, { url: '…' }));
        describedIn(span, node.alt);
        break;
      case 'mdxJsxFlowElement':
      case 'mdxJsxTextElement': {
        const read = readComponent(source, span, node, span.from < linkEnd);
        if (read.component) {
          components.push(read.component);
          componentEnd = span.to;
        }
        if (node.name === 'a') linkEnd = span.to;
        append(references, read.references);
        append(diagnostics, read.diagnostics);
        break;
      }
      case 'mdxFlowExpression':
      case 'mdxTextExpression':
        if (!isText(readValue(node.value)))
          diagnostics.push(report('lesson-expression', span, { text: oneLine(node.value) }));
        break;
      case 'mdxjsEsm': {
        const word = /^\s*export/.test(node.value) ? 'export' : 'import';
        diagnostics.push(report('lesson-code', lineFrom(source, span.from), { word }));
        break;
      }
    }
  }
  const embedded = new Set(
    definitions.filter(({ identifier }) => pictured.has(identifier)).map(({ reference }) => reference),
  );
  return {
    source,
    placed,
    frontMatter,
    blocks,
    references: references.map((one, index) => (embedded.has(index) ? { ...one, use: 'embed' } : one)),
    components,
    headings,
    prose,
    diagnostics,
  };

  /** A description is plain text: of a component in it, what it encloses would be left. */
  function describedIn({ from, to }: TextSpan, alt: string | null | undefined): void {
    for (const { index, 1: name = '' } of source.slice(from, to).matchAll(/<([A-Z][A-Za-z]*)[\s/>]/g))
      if (COMPONENTS.has(name) && !alt?.includes(`<${name}`)) {
        const at = from + index + 1;
        diagnostics.push(report('component-in-alt', { from: at, to: at + name.length }, { component: name }));
      }
  }

  function readFence({ value: text, meta }: MdastNode & { type: 'code' }, span: TextSpan): BlockText {
    const opening = lineFrom(source, span.from);
    const fault = fenceFault(source, span);
    if (fault) diagnostics.push(report('fence-unclosed', opening, fault));
    if (meta) diagnostics.push(report('fence-settings', restOf(opening, meta), { text: meta }));
    // A block whose fence is not closed takes in the text after it, and would have an error in every line.
    const tree = fault ? nothing(text) : parseBlock(text);
    const range = { start: pointAt(placed, span.from), end: pointAt(placed, span.to) };
    return { text, placed: placedInFence(source, span, range.start.line, text), range, tree, closed: !fault };
  }

  /** Headings and links that lack a sign or have a space too many, and so are plain text. */
  function unmarkedIn({ from, to }: TextSpan): Diagnostic[] {
    const text = source.slice(from, to);
    const at = (index: number, length: number): TextSpan => ({ from: from + index, to: from + index + length });
    // A paragraph may begin with a number, as in #1; words behind the signs of a heading are its text.
    const isHeading = /^#+[ \t]+$/.test(source.slice(source.lastIndexOf('\n', from - 1) + 1, from));
    const found = isHeading ? [] : [...text.matchAll(/^(#{1,6})(?:\p{L}|(?<=##)\p{N})[^\r\n]{0,80}/gmu)];
    const headings = found.map(({ 0: line, 1: signs = '', index }) =>
      // Within a paragraph it may be a word of a sentence.
      report('heading-space', at(index, line.length), { text: oneLine(line), signs, isCertain: index === 0 }),
    );
    const links = [...text.matchAll(/\[[^\][\r\n]{0,200}\]\([^\s()"]{1,200}(?: [^\s()"]{1,200})+\)/g)].map(
      ({ 0: link, index }) => report('link-space', at(index, link.length), { text: oneLine(link) }),
    );
    // Read as plain Markdown, the text of a lesson has tags in it.
    const lost = mistakes.length > 0 ? [] : lostLinksIn(text);
    return [
      ...headings,
      ...links,
      ...lost.map(({ index, link, meant }) =>
        report('link-lost', at(index, link.length), { text: oneLine(link), meant }),
      ),
    ];
  }

  /** Whether it goes on from text that reads as a block. */
  function isBehindLost({ from }: TextSpan): boolean {
    return lostEnd > 0 && from - lostEnd < 200 && source.slice(lostEnd, from).trim() === '';
  }

  /** Text that is shown as it is typed: it may be a block that lost the word, or the end of one that lost its first line. */
  function readPlainFence({ value, lang }: MdastNode & { type: 'code' }, span: TextSpan): void {
    const opening = lineFrom(source, span.from);
    if (!/^(?:`{3}|~{3})/.test(source.slice(span.from, span.to))) return;
    if (!lang && lostBlockIn(value)) diagnostics.push(report('block-lost', opening, { how: 'wordless' }));
    else {
      const fault = fenceFault(source, span);
      // An example of a lesson may hold blocks of its own.
      // The end of a block that lost its beginning is no beginning.
      if (fault && fault.next === undefined && !isBehindLost(span))
        diagnostics.push(report('fence-unclosed', opening, {}));
    }
  }

  /** The word tab in capitals, or as more than one. */
  function otherWord(opening: TextSpan, word: string): Diagnostic {
    const at = opening.from + source.slice(opening.from, opening.to).indexOf(word);
    return report('fence-word', opening, { word }, certainly({ from: at, to: at + word.length }, 'tab'));
  }

  /** What is behind the word of an opening fence. */
  function restOf(opening: TextSpan, meta: string): TextSpan {
    const at = source.slice(opening.from, opening.to).lastIndexOf(meta);
    return at < 0 ? opening : { from: opening.from + at, to: opening.from + at + meta.length };
  }
}

/** The text of a node, and the places of the components in it whose text is not what they enclose. */
function partsOf(root: MdastNode): (string | number)[] {
  const parts: (string | number)[] = [];
  let behind = 0;
  for (const node of nodesOf(root)) {
    const { from, to } = spanOf(node);
    if (from < behind) continue;
    if (node.type === 'mdxJsxTextElement' && COMPONENTS.has(node.name ?? '')) {
      parts.push(from);
      behind = to;
    } else if ('value' in node) parts.push(node.value);
  }
  return parts;
}

/** What may be in the running text: a text, a number, a comment. */
const isText = (read: ReturnType<typeof readValue>): boolean => 'value' in read && typeof read.value !== 'object';

const nothing = (text: string): BlockTree => ({
  text,
  header: new Map(),
  music: [],
  phrases: new Map(),
  diagnostics: [],
});
