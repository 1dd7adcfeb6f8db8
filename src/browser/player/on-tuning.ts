/** The music of a block on a harp of another tuning, for its player. */
import type { Playback } from '../../score/playback.ts';
import { playbackOf } from '../../score/playback-of.ts';
import type { Chosen } from '../harp/chosen.ts';
import { musicAddress, siteScoreAt } from '../harp/music.ts';
import { onStudentsHarp } from '../harp/on-harp.ts';

/** What a player plays of a block of this page on a harp of another tuning. Rejects where the music cannot be fetched. */
export async function playbackOnTuning(lesson: string, block: string, chosen: Chosen): Promise<Playback> {
  const found = await siteScoreAt(musicAddress(lesson), block);
  const { score } = await onStudentsHarp(found.score, chosen);
  return playbackOf(score);
}
