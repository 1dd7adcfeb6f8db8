/** Every check of the path. */
import { checkDependencies, type PathStage } from './check-dependencies.ts';
import { checkPlaying } from './check-playing.ts';
import { checkTeaching } from './check-teaching.ts';
import type { Curriculum } from './curriculum.ts';
import { collector, type Finding } from './finding.ts';

/** Runs all checks of the path. */
export function checkPath(
  { numbered }: Pick<Curriculum, 'numbered'>,
  stages: readonly PathStage[],
): readonly Finding[] {
  const { findings, add } = collector();
  checkDependencies(numbered, stages, add);
  checkTeaching(numbered, add);
  checkPlaying(numbered, add);
  return findings;
}
