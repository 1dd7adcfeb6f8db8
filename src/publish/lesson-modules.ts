/**
 * Lets pages import the lessons of a course that may be anywhere on the disk: `reedway:lessons` is a module with one
 * entry a lesson. While its author is at work each is loaded when its page asks for it, so that a broken one spoils no other
 * page; a build takes them all in one piece, which is faster to bundle and load than hundreds.
 */
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { isPublishable } from '../course/course.ts';
import { isReadable, readableText } from '../lesson/markdown.ts';
import { lessonIn, theSite } from '../site/site.ts';

/** The name under which a page imports the lessons. */
export const LESSON_MODULES = 'reedway:lessons';
/** The same as Vite names a virtual module inside. */
export const RESOLVED = `\0${LESSON_MODULES}`;

/** A Vite plugin that offers the course's lessons as the module `reedway:lessons`. */
export const lessonModules = (): Plugin => ({
  name: 'reedway-lessons',
  enforce: 'pre',
  transform: {
    order: 'pre',
    filter: { id: /\.mdx$/ },
    // The check reports what is wrong. A lesson nested too deep would end the process that compiles it, so none gets
    // there that cannot be read.
    async handler(text, id) {
      const { course } = await theSite();
      const lesson = lessonIn(course, id);
      const isChecked = lesson?.source === text && isPublishable(course);
      if (!isChecked && !isReadable(text)) throw new Error(`${id} cannot be read as a lesson.`);
      return readableText(text);
    },
  },
  resolveId: (id) => (id === LESSON_MODULES ? RESOLVED : undefined),
  async load(id) {
    if (id !== RESOLVED) return undefined;
    const { course, lessons, authoring } = await theSite();
    const files = lessons.map(({ file }) => JSON.stringify(join(course.dir, file)));
    const imports = authoring ? [] : files.map((file, index) => `import * as lesson${index} from ${file};\n`);
    const entries = lessons.map(
      ({ id }, index) =>
        `${JSON.stringify(id)}: async () => ${authoring ? `import(${files[index]})` : `lesson${index}`}`,
    );
    return `${imports.join('')}export const lessonModules = {\n${entries.join(',\n')}\n};\n`;
  },
});
