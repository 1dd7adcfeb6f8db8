/**
 * Lets pages import the lessons of a course that may stand anywhere on the disk: `reedway:lessons` is a module with one
 * entry a lesson, its MDX loaded when a page asks for it.
 */
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { theSite } from './site.ts';

export const LESSON_MODULES = 'reedway:lessons';
export const RESOLVED = `\0${LESSON_MODULES}`;

export const lessonModules = (): Plugin => ({
  name: 'reedway-lessons',
  resolveId: (id) => (id === LESSON_MODULES ? RESOLVED : undefined),
  async load(id) {
    if (id !== RESOLVED) return undefined;
    const { course, lessons } = await theSite();
    const entries = lessons.map(
      (lesson) => `${JSON.stringify(lesson.id)}: () => import(${JSON.stringify(join(course.dir, lesson.file))})`,
    );
    return `export const lessonModules = {\n${entries.join(',\n')}\n};\n`;
  },
});
