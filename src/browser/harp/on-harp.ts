/** A block's music on the student's harp. */

import { moveToHarp } from '../../score/harp/move.ts';
import type { Relocated } from '../../score/harp/relocate.ts';
import type { Score } from '../../score/score.ts';
import { type Chosen, studentsHarp } from './chosen.ts';

/** Holes stay on a harp of the same tuning; on another the tune stays, and says which of its notes that harp has not got. */
export async function onStudentsHarp(score: Score, chosen: Pick<Chosen, 'harp' | 'tuned'>): Promise<Relocated> {
  const harp = studentsHarp(chosen, score.harp);
  if (harp.tuning.id === score.harp.tuning.id) return { score: moveToHarp(score, harp), replaced: [] };
  const { relocate } = await import('../../score/harp/relocate.ts');
  return relocate(score, harp);
}
