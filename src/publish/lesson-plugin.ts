/**
 * Turns our parts of a lesson's Markdown into what a page can show. A fenced `tab` block becomes a `<TabBlock>` with the id of its
 * lesson and its number there, a figure and a clip get the same two attributes, and a link to a lesson or to media becomes an address
 * of the site. The course was read and checked before, so nothing is read twice and nothing is found wrong here. A part of the
 * page and a part of the course are the same when they start at the same place in the file. Their order may differ: footnotes move
 * to the end of the page.
 */
import { fileURLToPath } from 'node:url';
import type {
  HastNode,
  HastPluginEntry,
  HastVisitorContext,
  MdastNode,
  MdastPluginEntry,
  MdastVisitorContext,
  MdxJsxFlowElement,
  MdxJsxFlowElementHast,
  MdxJsxTextElementHast,
  Position,
} from 'satteri';
import type { Lesson } from '../course/course.ts';
import type { SourceRange } from '../diagnostics/place.ts';
import { ADDRESS_ATTRIBUTES, isClip, isFigure, isInline, isWord } from '../lesson/component.ts';
import { attributeValueText, readValue } from '../lesson/value.ts';
import { addressOf } from '../site/links.ts';
import { lessonIn, type Site, theSite } from '../site/site.ts';
import { itemAt } from '../values/checked.ts';

type Paragraph = MdastNode & { readonly type: 'paragraph' };

/** A node of the text, with its place in the file. */
type Located = { readonly position?: Position | undefined };

/** A lesson that is being compiled, and its links' addresses. */
interface Compiled {
  readonly lesson: Lesson;
  /** The number, as an attribute's value, of the one of `parts` that starts where `node` does. */
  numberOf(parts: readonly { readonly range: SourceRange }[], node: Located): string;
  /** Gives `put` the address of a link, where it is not what was written. */
  readdress(written: string, put: (address: string) => void): void;
  /** The address of a picture. One that is not a file of the course gets an address of the site that nothing has. */
  pictureAddress(written: string): string;
}

async function compiledFrom(file: URL): Promise<Compiled | undefined> {
  const site: Site = await theSite();
  const lesson = lessonIn(site.course, fileURLToPath(file));
  return (
    lesson && {
      lesson,
      numberOf(parts, { position }) {
        const { line, column } = position?.start ?? {};
        const index = parts.findIndex(({ range: { start } }) => start.line === line && start.column === column);
        // While its author is at work the page is made again as soon as the change has been read.
        if (index < 0 && !site.authoring)
          throw new Error(`${lesson.file} was changed while it was built. Build it again.`);
        return `${index}`;
      },
      readdress(written, put) {
        const address = addressOf(site.addresses, lesson, written);
        if (address !== undefined && address !== written) put(address);
      },
      // Astro would import a file beside the lesson, and a program among the files would run.
      pictureAddress: (written) => addressOf(site.addresses, lesson, written) ?? site.addresses.file(written),
    }
  );
}

/** What is Markdown. Sätteri calls this once for each file it compiles. */
export const lessonMarkdown: MdastPluginEntry = ({ fileURL }) => {
  if (!fileURL) return null;
  let compiled: Compiled | undefined;
  return {
    name: 'reedway-markdown',
    options: { position: true },
    async before() {
      compiled = await compiledFrom(fileURL);
    },
    code: (node) => (compiled && node.lang === 'tab' ? tabBlock(compiled, node) : undefined),
    link: (node, context) => compiled?.readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    image(node, context) {
      if (compiled) context.setProperty(node, 'url', compiled.pictureAddress(node.url));
    },
    definition: (node, context) => compiled?.readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    mdxJsxFlowElement(node, context) {
      if (compiled && isSaid(node)) asParagraph(compiled, node, context);
    },
  };
};

const isSaid = (node: MdastNode): node is MdxJsxFlowElement =>
  node.type === 'mdxJsxFlowElement' &&
  node.name !== null &&
  (isInline({ name: node.name }) || isWord({ name: node.name }));

/**
 * Components that are alone in their paragraph are read as blocks; those that say something are its words, and get their paragraph
 * back. An item of a list without empty lines has none.
 */
function asParagraph(
  { lesson, numberOf }: Compiled,
  node: Readonly<MdxJsxFlowElement>,
  context: MdastVisitorContext,
): void {
  const parent = context.parent(node);
  if (!hasParagraphs(parent, context)) return;
  const siblings: readonly MdastNode[] = parent.children;
  const at = context.indexOf(node) ?? 0;
  const before = siblings[at - 1];
  // It is in the paragraph of the one before it.
  if (before && isSaid(before) && isNext(before, node)) {
    context.removeNode(node);
    return;
  }
  const words = [node];
  for (const next of siblings.slice(at + 1)) {
    if (!isSaid(next) || !isNext(itemAt(words, words.length - 1), next)) break;
    words.push(next);
  }
  const children = words.flatMap((word, index): Paragraph['children'] => [
    ...(index > 0 ? [{ type: 'text', value: ' ' } as const] : []),
    {
      type: 'mdxJsxTextElement',
      name: word.name,
      attributes: numbered(lesson, numberOf(partsNamed(word.name ?? '', lesson) ?? [], word)),
      children: [],
    },
  ]);
  context.replaceNode(node, { type: 'paragraph', children });
}

/** Whether text that is directly in `parent` is in a paragraph. */
function hasParagraphs(parent: Readonly<MdastNode>, context: MdastVisitorContext): boolean {
  if (parent.type !== 'listItem') return ['root', 'blockquote', 'footnoteDefinition'].includes(parent.type);
  const list = context.parent(parent);
  return list.type === 'list' && list.children.some(({ spread }) => spread);
}

/** Whether no empty line is between two nodes. */
const isNext = (one: Located, next: Located): boolean =>
  (next.position?.start.line ?? 0) - (one.position?.end.line ?? 0) < 2;

/** The parts of a lesson that a component of this name is one of; undefined for an element of HTML. */
function partsNamed(name: string, { figures, clips, inlines, words }: Lesson) {
  if (isFigure({ name })) return figures;
  if (isClip({ name })) return clips;
  if (isInline({ name })) return inlines;
  return isWord({ name }) ? words : undefined;
}

/** What is in braces, as the text that was read of it: no expression of a lesson is compiled. */
const shownText = ({ value: written }: { readonly value: string }): { type: 'text'; value: string } => {
  const read = readValue(written);
  const value = 'value' in read ? read.value : undefined;
  return { type: 'text', value: typeof value === 'string' || typeof value === 'number' ? `${value}` : '' };
};

/** What a component’s page needs to know of it: its lesson and its number there. */
const numbered = ({ id }: Lesson, index: string): MdxJsxFlowElement['attributes'] => [
  { type: 'mdxJsxAttribute', name: 'lesson', value: id },
  { type: 'mdxJsxAttribute', name: 'index', value: index },
];

const tabBlock = ({ lesson, numberOf }: Compiled, node: Located): MdxJsxFlowElement => ({
  type: 'mdxJsxFlowElement',
  name: 'TabBlock',
  attributes: numbered(lesson, numberOf(lesson.blocks, node)),
  children: [],
});

/** What is written as elements, whose attributes can be set only once Markdown is done. */
export const lessonElements: HastPluginEntry = ({ fileURL }) => {
  if (!fileURL) return null;
  let compiled: Compiled | undefined;
  return {
    name: 'reedway-elements',
    options: { position: true },
    async before() {
      compiled = await compiledFrom(fileURL);
    },
    mdxFlowExpression: shownText,
    mdxTextExpression: shownText,
    element: { filter: ['h1', 'h2', 'h3', 'h4', 'h5', 'h6'], visit: heading },
    mdxJsxFlowElement: { filter: [], visit: element },
    mdxJsxTextElement: { filter: [], visit: element },
  };

  /** Headings have the anchors that links to them were checked against. */
  function heading(node: Readonly<HastNode & { type: 'element' }>, context: HastVisitorContext): void {
    const { line, column } = node.position?.start ?? {};
    const own = compiled?.lesson.headings.find(
      ({ range: { start } }) => start.line === line && start.column === column,
    );
    if (own) context.setProperty(node, 'id', own.slug);
  }

  function element(node: Readonly<MdxJsxFlowElementHast | MdxJsxTextElementHast>, context: HastVisitorContext): void {
    const { name } = node;
    if (!compiled || name === null) return;
    const { lesson, numberOf } = compiled;
    const read = partsNamed(name, lesson);
    // A component was read with the course, like a block: its page needs only to know which one it is.
    if (read) {
      // One that was put into a paragraph of its own has its number, and no place in the file any more.
      if (!node.position) return;
      context.setProperty(node, 'lesson', lesson.id);
      context.setProperty(node, 'index', numberOf(read, node));
      return;
    }
    for (const attribute of node.attributes) {
      if (attribute.type !== 'mdxJsxAttribute' || !ADDRESS_ATTRIBUTES.has(attribute.name)) continue;
      const { name: key, value } = attribute;
      const written = attributeValueText(value);
      if (written !== undefined) compiled.readdress(written, (address) => context.setProperty(node, key, address));
    }
  }
};
