/** Every check of the path. */
import { checkPlaying } from './check-playing.ts';
import { checkTeaching } from './check-teaching.ts';
import { checkTies, type Stage } from './check-ties.ts';
import type { Curriculum } from './curriculum.ts';
import { collector, type Finding } from './finding.ts';

export function checkPath({ numbered }: Pick<Curriculum, 'numbered'>, stages: readonly Stage[]): readonly Finding[] {
  const { findings, add } = collector();
  checkTies(numbered, stages, add);
  checkTeaching(numbered, add);
  checkPlaying(numbered, add);
  return findings;
}
