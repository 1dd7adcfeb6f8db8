/** How pages get their engraved blocks. Whether they are engraved now, ahead of time or were cached by an earlier build is for `publish/engraving`. */
import type { Block, Course, Lesson } from '../course/course.ts';

/** An engraved block for a page. */
export interface Engraved {
  readonly html: string;
  /** The outlines the block draws, by name: the page carries each once. */
  readonly glyphs: readonly string[];
}

/** Engraves the blocks of a course. */
export interface Engraver {
  /**
   * Undefined for a block with an error, which only its author ever sees. `id` begins the ids in it: its own on its lesson's
   * page, another where blocks of several lessons are on one.
   */
  block(course: Course, lesson: Lesson, block: Block, id?: string): Engraved | undefined;
  /** A block that no lesson holds, from its text: the examples of how a block is read. */
  example(id: string, text: string): Engraved;
  /** The outlines themselves, to be on the page once. */
  sheet(glyphs: Iterable<string>): string;
  /** Something else that takes long to make: made once, and kept by a key that says all it is made from. */
  cached(key: string, make: () => string): string;
}
