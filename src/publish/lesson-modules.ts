/**
 * Lets pages import the lessons of a course that may be anywhere on the disk: `reedway:lessons` is a module with one
 * entry a lesson. While its author is at work each is loaded when its page asks for it, so that a broken one spoils no other
 * page; a build takes them all in one piece, which is faster to bundle and load than hundreds.
 */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { isPublishable } from '../course/course.ts';
import { decode } from '../course/decode.ts';
import { isSafeReference } from '../course/link.ts';
import { withEmptyFrontMatter } from '../lesson/front-matter.ts';
import { readLessonText } from '../lesson/lesson-text.ts';
import { readableText } from '../lesson/markdown.ts';
import { lessonIn, theSite } from '../site/site.ts';

/** The name under which a page imports the lessons. */
export const LESSON_MODULES = 'reedway:lessons';
/** The same as Vite names a virtual module inside. */
export const RESOLVED = `\0${LESSON_MODULES}`;

/** Errors of a lesson's text that change nothing but what is shown of it. */
const HARMLESS: ReadonlySet<string> = new Set(['fence-unclosed', 'fence-settings']);

/** Whether a lesson can be read, holds no program, and asks no other site for anything before a click. */
function isOnlyText(text: string): boolean {
  const { diagnostics, references } = readLessonText(text);
  const wrong = diagnostics.filter(({ code, severity }) => severity === 'error' && !HARMLESS.has(code));
  return wrong.length === 0 && references.every(isSafeReference);
}

/** A Vite plugin that offers the course's lessons as the module `reedway:lessons`. */
export const lessonModules = (): Plugin => ({
  name: 'reedway-lessons',
  enforce: 'pre',
  transform: {
    order: 'pre',
    filter: { id: /\.mdx$/ },
    // The check reports what is wrong. While an author is at work their lessons have errors: one that cannot be read
    // could end the process that compiles it, and one that holds a program would run it, here or in the author's browser.
    async handler(text, id) {
      const { course } = await theSite();
      const lesson = lessonIn(course, id);
      const isChecked = lesson?.source === text && isPublishable(course);
      // It was read with the course, and means nothing to the compiler.
      const below = withEmptyFrontMatter(text);
      if (below === undefined || (!isChecked && !isOnlyText(text)))
        throw new Error(`${id} cannot be shown as a lesson.`);
      return readableText(below);
    },
  },
  async resolveId(id) {
    if (id === LESSON_MODULES) return RESOLVED;
    // By the name it has in the course: by that of a file which a link leads to it might be taken for a program.
    return id.endsWith('.mdx') && lessonIn((await theSite()).course, id) ? id : undefined;
  },
  async load(id) {
    const { course, lessons, authoring } = await theSite();
    // As the course is read: the bundler takes what follows a # or a ? in the name of a folder for no part of the path.
    if (id !== RESOLVED) return lessonIn(course, id) && decode(await readFile(id)).text;
    const files = lessons.map(({ file }) => JSON.stringify(join(course.dir, file)));
    const imports = authoring ? [] : files.map((file, index) => `import * as lesson${index} from ${file};\n`);
    const entries = lessons.map(
      ({ id }, index) =>
        `${JSON.stringify(id)}: async () => ${authoring ? `import(${files[index]})` : `lesson${index}`}`,
    );
    return `${imports.join('')}export const lessonModules = {\n${entries.join(',\n')}\n};\n`;
  },
});
