/** Blocks for checks of files: random ones, of which the oracle knows what they mean, and those of the demo course. */
import { DEMO } from '../../../src/command/package.ts';
import { loadCourse } from '../../../src/course/load.ts';
import type { Credits } from '../../../src/interchange/credits.ts';
import { ALONE, readBlock } from '../../../src/notation/read.ts';
import type { Score } from '../../../src/score/score.ts';
import { creditsOf } from '../../../src/site/credits.ts';
import { present } from '../../../src/values/checked.ts';
import { changingSample } from '../oracle/changing.ts';
import { type Sample, sample } from '../oracle/oracle.ts';

/** A random block. */
export interface Asked {
  readonly seed: number;
  readonly asked: Sample;
  readonly score: Score;
}

/** Random blocks with the seeds from 1 on. */
export const randomBlocks = (count: number): Asked[] =>
  Array.from({ length: count }, (_, index) => {
    const asked = sample(index + 1);
    return { seed: index + 1, asked, score: present(readBlock(asked.text, ALONE).score, asked.text) };
  });

/** Random blocks whose settings change, with the seeds from 1 on. */
export const changingScores = (count: number): Score[] =>
  Array.from({ length: count }, (_, index) => {
    const { text } = changingSample(index + 1);
    return present(readBlock(text, ALONE).score, text);
  });

/** Credits with every sign that a format could trip over. */
export const HARD_CREDITS: Credits = {
  title: 'A & B <i>"100 %"</i> \\ [C] | d:e',
  lesson: 'Lesson *1*_2~3 -- \u{1d11e} é',
  course: "The 'course'",
  teacher: 'T & T',
  licence: 'All rights <reserved> & "kept"',
  address: 'https://example.org/a?b=c&d=%20#e',
};

/** A block of the demo course. */
export interface DemoBlock {
  readonly name: string;
  readonly score: Score;
  readonly credits: Credits;
}

/** Every block of the demo course. */
export function demoBlocks(): DemoBlock[] {
  const course = loadCourse(DEMO);
  return course.lessons.flatMap((lesson) =>
    lesson.blocks.map((block) => ({
      name: `${lesson.id}/${block.id}`,
      score: present(block.score, block.id),
      credits: creditsOf(course, lesson, block),
    })),
  );
}
