/** Lessons alone and in a course in memory: every problem has its place, every block is where its text is, and nothing throws. */
import fc from 'fast-check';
import { ALL_PROBLEMS } from '../../src/course/catalogue.ts';
import { type BlockText, readLessonText } from '../../src/lesson/lesson-text.ts';
import { courseOfFiles, DEFAULT_FILES } from './course-in-memory.ts';
import { ATTACKS, lessonFile, PIECES, SAID } from './lesson-text.ts';
import { mutated } from './mutated.ts';
import { checkDiagnostics } from './problems.ts';
import { must, type Target } from './target.ts';

/** Signs of MDX alone, in short texts: what is never closed is found at the very end. */
const signs = fc
  .array(
    fc.constantFrom(
      ...'{}[]()<>/`*_!#|-"\'=:\\ \n\t~&;',
      'a',
      '{/*',
      '*/}',
      '<!--',
      '-->',
      '](',
      '{[a](',
      '<a ',
      '<Clip ',
      '</',
      '/>',
      '```tab\n',
    ),
    {
      maxLength: 14,
    },
  )
  .map((all) => all.join(''));
const pieces = fc.oneof(fc.constantFrom(...PIECES), fc.constantFrom(...SAID), fc.constantFrom(...ATTACKS), signs);

/** Every line of a block is in the file where it is said to be. */
function checkPlace(source: string, { text, placed, range }: BlockText): void {
  const lines = source.split(/\r\n|\n|\r/);
  must(range.end.line <= lines.length, 'a block ends in the file', () => range);
  const own = text.split(/\r\n|\n|\r/);
  placed.lines.forEach(({ at }, index) => {
    const line = lines[at.line - 1];
    must(line !== undefined && at.column - 1 <= line.length, 'a line of a block is in the file', () => [at, line]);
    const there = line?.slice(at.column - 1) ?? '';
    const word = own[index]?.trimStart().split(/[\s\0\ufffd]/)[0] ?? '';
    must(there.includes(word), 'a line of a block is where its text is', () => [at, there, own[index]]);
  });
}

export const lessons: Target<string> = {
  name: 'lessons',
  limit: 5,
  batch: 100,
  pure: true,
  cases: fc.oneof(
    { weight: 3, arbitrary: lessonFile },
    { weight: 2, arbitrary: mutated(lessonFile, pieces) },
    { weight: 2, arbitrary: signs },
  ),
  check(text) {
    const { diagnostics, frontMatter, blocks } = readLessonText(text);
    checkDiagnostics(text, [...diagnostics, ...frontMatter.diagnostics], ALL_PROBLEMS);
    for (const block of blocks) checkPlace(text, block);
    courseOfFiles({ ...DEFAULT_FILES, 'lessons/lesson.mdx': text });
  },
};
