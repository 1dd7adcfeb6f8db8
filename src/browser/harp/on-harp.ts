/** A block's music on the student's harp. */

import { moveToHarp } from '../../score/move.ts';
import type { Playback } from '../../score/playback.ts';
import { playbackOf } from '../../score/playback.ts';
import { type Relocated, relocate } from '../../score/relocate.ts';
import type { Score } from '../../score/score.ts';
import { type Chosen, studentsHarp } from './chosen.ts';
import { musicAddress, musicAt } from './music.ts';

/** Holes stay on a harp of the same tuning; on another the tune stays, and says which of its notes that harp has not got. */
export function onStudentsHarp(score: Score, chosen: Pick<Chosen, 'harp' | 'tuned'>): Relocated {
  const harp = studentsHarp(chosen, score.harp);
  return harp.tuning.id === score.harp.tuning.id
    ? { score: moveToHarp(score, harp), replaced: [] }
    : relocate(score, harp);
}

/** What a player plays of a block of this page on a harp of another tuning. Rejects where the music cannot be fetched. */
export async function playbackOnTuning(lesson: string, block: string, chosen: Chosen): Promise<Playback> {
  const { scores } = await musicAt(musicAddress(lesson));
  const found = Object.hasOwn(scores, block) ? scores[block] : undefined;
  if (!found) throw new Error(`there is no score of ${block}`);
  return playbackOf(onStudentsHarp(found.score, chosen).score);
}
