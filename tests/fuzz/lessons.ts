/** Lessons of one course in memory: every problem has its place, and nothing throws. */
import { courseOfFiles, DEFAULT_FILES } from './course-in-memory.ts';
import { lessonFile } from './lesson-text.ts';
import type { Target } from './target.ts';

export const lessons: Target<string> = {
  name: 'lessons',
  limit: 5,
  pure: true,
  batch: 100,
  cases: lessonFile,
  check(text) {
    courseOfFiles({ ...DEFAULT_FILES, 'lessons/lesson.mdx': text });
  },
};
