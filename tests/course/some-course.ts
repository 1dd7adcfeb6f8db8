/** Courses for tests, written to folders of their own that are removed when the run ends. */
import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { inject } from 'vitest';

/** A folder with these files, by their paths below it. */
export function folderOf(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = mkdtempSync(join(inject('scratch'), 'course-'));
  for (const [path, content] of Object.entries(files)) write(folder, path, content);
  return folder;
}

export function write(folder: string, path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
}

/** A lesson that is right, with what is given below its front matter. */
export const lesson = (text = '', frontMatter = 'title: A lesson'): string => `---\n${frontMatter}\n---\n\n${text}`;

/** A course that is right, with what is given over it. */
export const courseOf = (files: Readonly<Record<string, string | Uint8Array>> = {}): string =>
  folderOf({
    'course.yaml': 'title: A course\n',
    'lessons/first.mdx': lesson('Hello.\n'),
    ...files,
  });
