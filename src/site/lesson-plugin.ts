/**
 * Turns what a lesson's Markdown has of ours into what a page can show: a fenced `tab` block becomes a `<TabBlock>` that
 * names its lesson and its number, and a link to a lesson or to media becomes an address of the site. The course was
 * read and checked before, so nothing is read twice and nothing is found wrong here.
 */
import { fileURLToPath } from 'node:url';
import type { MdastPluginEntry, MdastVisitorContext, MdxJsxFlowElement, MdxJsxTextElement } from 'satteri';
import { ADDRESS_ATTRIBUTES } from '../course/component.ts';
import type { Lesson } from '../course/course.ts';
import { FIGURES } from '../course/figure.ts';
import { addressOf } from './links.ts';
import { lessonIn, type Site, theSite } from './site.ts';

/** Sätteri calls this once for each file it compiles. */
export const lessonPlugin: MdastPluginEntry = ({ fileURL }) => {
  if (!fileURL) return null;
  let site: Site;
  let lesson: Lesson | undefined;
  let block = 0;
  let figure = 0;
  return {
    name: 'reedway-lesson',
    async before() {
      site = await theSite();
      lesson = lessonIn(site.course, fileURLToPath(fileURL));
    },
    code: (node) => (lesson && node.lang === 'tab' ? tabBlock(lesson.id, block++) : undefined),
    link: (node, context) => readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    image: (node, context) => readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    definition: (node, context) => readdress(node.url, (url) => context.setProperty(node, 'url', url)),
    mdxJsxFlowElement: component,
    mdxJsxTextElement: component,
  };

  function readdress(written: string, put: (url: string) => void): void {
    const address = lesson && addressOf(site.addresses, lesson, written);
    if (address !== undefined && address !== written) put(address);
  }

  function component(node: Readonly<MdxJsxFlowElement | MdxJsxTextElement>, context: MdastVisitorContext): void {
    // A figure was read with the course, like a block: its page needs only to know which one it is.
    if (lesson && node.name !== null && Object.hasOwn(FIGURES, node.name))
      context.setProperty(node, 'attributes', placeInLesson(lesson.id, figure++));
    else readdressAttributes(node, context);
  }

  function readdressAttributes(
    node: Readonly<MdxJsxFlowElement | MdxJsxTextElement>,
    context: MdastVisitorContext,
  ): void {
    const attributes = node.attributes.map((attribute) => {
      if (attribute.type !== 'mdxJsxAttribute' || !ADDRESS_ATTRIBUTES.has(attribute.name)) return attribute;
      if (typeof attribute.value !== 'string') return attribute;
      let { value } = attribute;
      readdress(value, (url) => {
        value = url;
      });
      return { ...attribute, value };
    });
    if (attributes.some((one, index) => one !== node.attributes[index]))
      context.setProperty(node, 'attributes', attributes);
  }
};

const tabBlock = (lesson: string, index: number): MdxJsxFlowElement => ({
  type: 'mdxJsxFlowElement',
  name: 'TabBlock',
  attributes: placeInLesson(lesson, index),
  children: [],
});

function placeInLesson(lesson: string, index: number): MdxJsxFlowElement['attributes'] {
  return [
    { type: 'mdxJsxAttribute', name: 'lesson', value: lesson },
    { type: 'mdxJsxAttribute', name: 'index', value: `${index}` },
  ];
}
