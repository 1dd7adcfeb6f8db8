/**
 * Turns what a lesson's Markdown has of ours into what a page can show: a fenced `tab` block becomes a `<TabBlock>` that
 * names its lesson and its number, and a link to a lesson or to media becomes an address of the site. The course was
 * read and checked before, so nothing is read twice and nothing is found wrong here.
 */
import { fileURLToPath } from 'node:url';
import type { MdastPluginEntry, MdxJsxFlowElement } from 'satteri';
import type { Lesson } from '../course/course.ts';

export interface LessonLinks {
  /** The lesson a file holds, or undefined for a file that is none of the course's. */
  lessonOf(file: string): Lesson | undefined;
  /** The address on the site of what a link of this lesson points at, or undefined to leave the link as it is. */
  addressOf(url: string, from: Lesson): string | undefined;
}

export const lessonPlugin =
  (links: LessonLinks): MdastPluginEntry =>
  ({ fileURL }) => {
    const lesson = fileURL && links.lessonOf(fileURLToPath(fileURL));
    if (!lesson) return null;
    let block = 0;
    const readdress = (node: { readonly url: string }): { url: string } | undefined => {
      const url = links.addressOf(node.url, lesson);
      return url === undefined || url === node.url ? undefined : { url };
    };
    return {
      name: 'reedway-lesson',
      code(node) {
        if (node.lang !== 'tab') return undefined;
        return tabBlock(lesson.id, block++);
      },
      link: (node, context) => {
        const change = readdress(node);
        if (change) context.setProperty(node, 'url', change.url);
      },
      definition: (node, context) => {
        const change = readdress(node);
        if (change) context.setProperty(node, 'url', change.url);
      },
      image: (node, context) => {
        const change = readdress(node);
        if (change) context.setProperty(node, 'url', change.url);
      },
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
