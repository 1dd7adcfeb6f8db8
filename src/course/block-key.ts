/** The cache key of a block's music: a digest of everything the score is made from. */
import { createHash } from 'node:crypto';
import type { Block, Course, Lesson } from './course.ts';

/** The key under which what was made from a block is cached. */
export type BlockKey = (lesson: Lesson, block: Block) => string;

/**
 * The keys of a course's blocks: a block's score is read from its text, the settings it starts from, the course's tables,
 * and the same of every block it quotes.
 */
export function blockKeys(course: Pick<Course, 'tunings' | 'forms' | 'byId'>): BlockKey {
  const tables = digest(JSON.stringify([course.tunings, course.forms]));
  const settings = new Map<Lesson, string>();
  const keys = new Map<Block, string>();
  return keyOf;

  function keyOf(lesson: Lesson, block: Block): string {
    const known = keys.get(block);
    if (known !== undefined) return known;
    const quoted = block.quotes.map(({ lesson: id, block: name }) => {
      const other = course.byId.get(id);
      const found = other?.blocks.find((one) => one.id === name);
      return other && found ? keyOf(other, found) : '';
    });
    const key = digest(tables, settingsOf(lesson), block.text, ...quoted);
    keys.set(block, key);
    return key;
  }

  function settingsOf(lesson: Lesson): string {
    const known = settings.get(lesson) ?? digest(JSON.stringify(lesson.defaults));
    settings.set(lesson, known);
    return known;
  }
}

/** The cache key of an example's text. */
export const exampleKey = (text: string): string => digest('example', text);

/** A digest of some texts that differs for any other list of texts. */
export function digest(...parts: string[]): string {
  const hash = createHash('sha256');
  // Each part is preceded by its length, so that no two lists give the same text.
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest('base64');
}
