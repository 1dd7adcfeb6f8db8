/** How pages get their engraved blocks; where they come from (engraved now, by another thread, or kept from before) is no concern of theirs. */
import type { Block, Lesson } from '../course/course.ts';

export interface Engraved {
  readonly html: string;
  /** The outlines the block draws, by name: the page carries each once. */
  readonly glyphs: readonly string[];
}

export interface Engraver {
  /** Undefined for a block with an error, which only its author ever sees. */
  block(lesson: Lesson, block: Block): Promise<Engraved | undefined>;
  /** A block that no lesson holds, from its text: the examples of how a block is read. */
  example(id: string, text: string): Engraved;
  /** The outlines themselves, to stand on the page once. */
  sheet(glyphs: Iterable<string>): string;
}
