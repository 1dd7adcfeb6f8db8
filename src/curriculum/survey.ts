/** What one lesson's blocks take, read off their scores: the costly part, and for each lesson independent of all others. */
import { detector, type FoundTechnique } from '../technique/detect.ts';
import { type Difficulty, difficultyOf } from '../technique/difficulty.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import type { PathBlock, PathLesson } from './lesson.ts';

/** What playing a block takes. */
export interface BlockSurvey {
  /** The techniques found in it; undefined, as the rest, where the block has no score. */
  readonly found: readonly FoundTechnique[];
  readonly difficulty: Difficulty;
}

/** By the block's number in the lesson; undefined where the block has an error. */
export type LessonSurvey = readonly (BlockSurvey | undefined)[];

/** Surveys lessons for one repertoire. A block that was surveyed before is not read again. */
export function surveyor(repertoire: Repertoire): (lesson: Pick<PathLesson, 'blocks'>) => LessonSurvey {
  const detect = detector(repertoire);
  const known = new WeakMap<object, BlockSurvey>();
  const surveyBlock = ({ score }: PathBlock): BlockSurvey | undefined => {
    if (!score) return undefined;
    const survey = known.get(score) ?? { found: detect(score), difficulty: difficultyOf(score) };
    known.set(score, survey);
    return survey;
  };
  return (lesson) => lesson.blocks.map(surveyBlock);
}

/** How hard a lesson is: its hardest block, with the block's number; undefined where none of its blocks could be read. */
export function hardest(survey: LessonSurvey): { readonly level: number; readonly block: number } | undefined {
  let best: { level: number; block: number } | undefined;
  survey.forEach((block, index) => {
    if (block && (!best || block.difficulty.level > best.level)) best = { level: block.difficulty.level, block: index };
  });
  return best;
}
