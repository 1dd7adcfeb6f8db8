/** Every check of the path. */
import { checkPlaying } from './check-playing.ts';
import { checkTeaching } from './check-teaching.ts';
import { checkTies, type Stage } from './check-ties.ts';
import type { Curriculum } from './curriculum.ts';
import { collector, type Finding } from './finding.ts';

export function checkPath(curriculum: Curriculum, stages: readonly Stage[]): readonly Finding[] {
  const { findings, add } = collector();
  checkTies(curriculum, stages, add);
  checkTeaching(curriculum, add);
  checkPlaying(curriculum, add);
  return findings;
}
