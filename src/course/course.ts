/**
 * A course as loaded: every lesson and block read and checked, with everything wrong collected. The site is built from
 * this value alone.
 */
import type { Problem, Placed } from '../diagnostics/place.ts';
import type { BlockTree } from '../notation/tree.ts';
import type { Settings } from '../notation/settings.ts';
import type { Score } from '../score/score.ts';
import type { CourseFile, LessonFront } from './front.ts';

export interface Course {
  /** Absolute path of the course folder. */
  readonly dir: string;
  readonly settings: CourseFile;
  /** In the order of the course: by stage, then as the path orders them within it. */
  readonly lessons: readonly Lesson[];
  /** Everything wrong, in file and line order. */
  readonly problems: readonly Problem[];
}

export interface Lesson {
  /** The file's name without `.mdx`, with its folders below `lessons`: its address and what others link to. */
  readonly id: string;
  /** Relative to the course folder, with forward slashes. */
  readonly file: string;
  readonly source: string;
  readonly front: LessonFront;
  /** What blocks of this lesson start from. */
  readonly defaults: Settings;
  readonly blocks: readonly Block[];
}

export interface Block {
  /** As the header says, or the block's number in the lesson from 0. */
  readonly id: string;
  readonly index: number;
  readonly text: string;
  readonly placed: Placed;
  readonly tree: BlockTree;
  /** Undefined where the block has an error. */
  readonly score: Score | undefined;
}
