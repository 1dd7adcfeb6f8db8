/** What a file of a block says of where it comes from. */
import type { Block, Course, Lesson } from '../course/course.ts';
import type { Credits } from '../interchange/credits.ts';
import { addressesUnder } from './addresses.ts';
import { settingText } from './texts.ts';

/** What is known of a block of a course. A block without a title is called by its lesson and its number, from 1. */
export function creditsOf({ file }: Course, lesson: Lesson, block: Block): Credits {
  const { title } = lesson.frontMatter;
  return {
    title: block.score?.title ?? settingText('blockOfLesson', { lesson: title, number: block.index + 1 }),
    lesson: title,
    course: file.title,
    teacher: file.teacher,
    licence: file.licence,
    address: addressOnWeb(file.url, lesson, block),
  };
}

/** The whole address of a block, where the course says what that of its site is. */
function addressOnWeb(url: string | undefined, lesson: Lesson, block: Block): string | undefined {
  if (url === undefined) return undefined;
  const site = new URL(url);
  return new URL(addressesUnder(site.pathname).block(lesson.id, block.id), site).href;
}
