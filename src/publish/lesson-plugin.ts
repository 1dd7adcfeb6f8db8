/**
 * Turns what a lesson's Markdown has of ours into what a page can show: a fenced `tab` block becomes a `<TabBlock>` that
 * names its lesson and its number, a figure is told the same of itself, and a link to a lesson or to media becomes an
 * address of the site. The course was read and checked before, so nothing is read twice and nothing is found wrong here.
 */
import { fileURLToPath } from 'node:url';
import type {
  HastPluginEntry,
  HastVisitorContext,
  MdastPluginEntry,
  MdxJsxFlowElement,
  MdxJsxFlowElementHast,
  MdxJsxTextElementHast,
} from 'satteri';
import type { Lesson } from '../course/course.ts';
import { ADDRESS_ATTRIBUTES, COMPONENTS } from '../lesson/component.ts';
import { addressOf } from '../site/links.ts';
import { lessonIn, type Site, theSite } from '../site/site.ts';

/** A lesson that is being compiled, and its links' addresses. */
interface Compiled {
  readonly lesson: Lesson;
  /** Gives `put` the address of a link, where it is not what was written. */
  readdress(written: string, put: (address: string) => void): void;
}

async function compiledFrom(file: URL): Promise<Compiled | undefined> {
  const site: Site = await theSite();
  const lesson = lessonIn(site.course, fileURLToPath(file));
  return (
    lesson && {
      lesson,
      readdress(written, put) {
        const address = addressOf(site.addresses, lesson, written);
        if (address !== undefined && address !== written) put(address);
      },
    }
  );
}

/** What is Markdown. Sätteri calls this once for each file it compiles. */
export const lessonMarkdown: MdastPluginEntry = ({ fileURL }) => {
  if (!fileURL) return null;
  let compiled: Compiled | undefined;
  let block = 0;
  return {
    name: 'reedway-markdown',
    async before() {
      compiled = await compiledFrom(fileURL);
    },
    code: (node) => (compiled && node.lang === 'tab' ? tabBlock(compiled.lesson.id, block++) : undefined),
    link: (node, context) => compiled?.readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    image: (node, context) => compiled?.readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    definition: (node, context) => compiled?.readdress(node.url, (url) => context.setProperty(node, 'url', url)),
  };
};

const tabBlock = (lesson: string, index: number): MdxJsxFlowElement => ({
  type: 'mdxJsxFlowElement',
  name: 'TabBlock',
  attributes: [
    { type: 'mdxJsxAttribute', name: 'lesson', value: lesson },
    { type: 'mdxJsxAttribute', name: 'index', value: `${index}` },
  ],
  children: [],
});

/** What is written as elements, whose attributes can be set only once Markdown is done. */
export const lessonElements: HastPluginEntry = ({ fileURL }) => {
  if (!fileURL) return null;
  let compiled: Compiled | undefined;
  let figure = 0;
  let clip = 0;
  return {
    name: 'reedway-elements',
    async before() {
      compiled = await compiledFrom(fileURL);
    },
    mdxJsxFlowElement: { filter: [], visit: element },
    mdxJsxTextElement: { filter: [], visit: element },
  };

  function element(node: Readonly<MdxJsxFlowElementHast | MdxJsxTextElementHast>, context: HastVisitorContext): void {
    if (!compiled || node.name === null) return;
    // A figure or a clip was read with the course, like a block: its page needs only to know which one it is.
    if (COMPONENTS.has(node.name)) {
      context.setProperty(node, 'lesson', compiled.lesson.id);
      context.setProperty(node, 'index', `${node.name === 'Clip' ? clip++ : figure++}`);
      return;
    }
    for (const attribute of node.attributes) {
      if (attribute.type !== 'mdxJsxAttribute' || typeof attribute.value !== 'string') continue;
      const { name, value } = attribute;
      if (ADDRESS_ATTRIBUTES.has(name))
        compiled.readdress(value, (address) => context.setProperty(node, name, address));
    }
  }
};
