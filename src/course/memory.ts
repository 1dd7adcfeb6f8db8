/** What one load of a course leaves for the next: whatever was read from a text that has not changed is taken over. */
import type { BlockTree } from '../notation/tree.ts';
import type { BlockRead } from './block.ts';
import type { CourseFileRead } from './course-file.ts';
import type { Glossary } from './inline/glossary.ts';
import type { LessonRead } from './lesson.ts';
import type { CourseTechniques } from './techniques.ts';

/** What of the last reading is used again where its files have not changed. */
export interface Memory {
  readonly head: CourseFileRead;
  readonly techniques: CourseTechniques;
  readonly glossary: Glossary;
  /** By file. */
  readonly lessons: ReadonlyMap<string, LessonRead>;
  readonly blocks: ReadonlyMap<BlockTree, BlockRead>;
}
