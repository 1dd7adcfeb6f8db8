/** Courses: their files at random, lessons that require and quote each other, forms, tunings and techniques of their own. */
import fc from 'fast-check';
import type { FileTable } from '../course/files-in-memory.ts';
import { courseOfFiles, DEFAULT_FILES } from './course-in-memory.ts';
import { lessonFile } from './lesson-text.ts';
import type { Target } from './target.ts';

const KEYS = [
  'title', 'teacher', 'language', 'url', 'licence', 'cautions', 'stages', 'concertA', 'temperament', 'tunings', 'forms', 'severity', 'harp', 'position', 'meter',
  'tempo', 'feel', 'slot', 'tuning', 'mouth', '__proto__', 'constructor', 'techniques', 'id', 'requires', 'uses', 'about', 'rule', 'caution', 'blow', 'draw', 'bars',
]; // biome-ignore format: a list to read across
const VALUES = [
  'A', 'A course', '3', '442', '"12/8"', 'twelve-bar', 'I7 | IV7 | V7 | I7', 'shuffle', 'just', 'en', 'de', 'not a language', 'https://example.org/course/',
  'javascript:alert(1)', 'true', 'null', '""', '[]', '{}', '0 4 7 12 16 19 24 28 31 36', '[0, 4, 7]', 'error', 'off', '&a [*a]', '*a', '!!js x', '1e400', '-1', '|', '>-',
]; // biome-ignore format: a list to read across

const key = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...KEYS) }, fc.string({ maxLength: 4 }));
const value = fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...VALUES) }, fc.string({ maxLength: 6 }));
/** Lines at random depths: much of it is no YAML, and most of the rest not what was asked for. */
const yaml = fc
  .array(fc.tuple(fc.nat(3), fc.boolean(), key, value), { maxLength: 14 })
  .map((lines) =>
    lines.map(([depth, item, name, text]) => `${'  '.repeat(depth)}${item ? '- ' : ''}${name}: ${text}`).join('\n'),
  );
const courseFile = fc.oneof(
  yaml,
  yaml.map((text) => `title: A course\n${text}`),
  fc.string({ unit: 'binary', maxLength: 40 }),
);

const names = ['one', 'two', 'three', 'first', 'unit/four', 'Ünï'];
/** A lesson that depends on others by its front matter and by a quotation. */
const linked = fc
  .tuple(fc.subarray(names), fc.constantFrom(...names), fc.boolean(), fc.boolean())
  .map(
    ([requires, quoted, draft, phrase]) =>
      `---\ntitle: A lesson\n${requires.length > 0 ? `requires: [${requires.join(', ')}]\n` : ''}${draft ? 'draft: true\n' : ''}---\n\n` +
      `\`\`\`tab\nid: x\nphrase p: 4 5\n${phrase ? `<${quoted}/x:p>` : `<${quoted}/x>`} 4\n\`\`\`\n[a](${quoted}) [b](${quoted}#x)\n`,
  );
const path = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom(...names).map((name) => `lessons/${name}.mdx`) },
  fc.constantFrom('lessons/a b.mdx', 'lessons/.mdx', 'lessons/x.md', 'lessons/con.mdx', 'lessons/FIRST.mdx', 'lessons/deep/er/x.mdx', 'media/b.svg', 'public/index.html', 'techniques.yaml', 'other.txt'),
); // biome-ignore format: a list to read across

const files: fc.Arbitrary<Readonly<Record<string, string>>> = fc
  .tuple(
    fc.option(courseFile),
    fc.option(yaml),
    fc.array(fc.tuple(path, fc.oneof(linked, lessonFile)), { maxLength: 7 }),
  )
  .map(([course, techniques, all]) => ({
    ...Object.fromEntries(all),
    ...(course === null ? {} : { 'course.yaml': course }),
    ...(techniques === null ? {} : { 'techniques.yaml': techniques }),
  }));

export const courses: Target<FileTable> = {
  name: 'courses',
  limit: 5,
  pure: true,
  batch: 100,
  cases: files,
  check(table) {
    courseOfFiles({ ...DEFAULT_FILES, ...table });
  },
};
