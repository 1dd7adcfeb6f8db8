/** What pages say of clips. */
import { posix } from 'node:path';
import type { Clip, ClipCue } from '../course/clips/clips.ts';
import { blockNamed, type Lesson } from '../course/course.ts';
import { barsInWords } from '../score/bar-words.ts';

/** The `id` of a clip's figure on its lesson's page, by its number there. */
export const clipAnchor = (index: number | string): string => `clip-${index}`;

/** What a clip is called: its title, or else the name of its file or of the host it is at. */
export const nameOfClip = ({ title, source }: Clip): string =>
  title ?? ('path' in source ? posix.basename(source.path) : source.host);

/** The bars of a block from one index to another: `bars 5 to 8`. */
export function barsOfBlock(lesson: Lesson, block: string, first: number, last: number): string {
  const bars = blockNamed(lesson, block)?.score?.bars ?? [];
  return barsInWords(bars[first]?.number ?? 0, bars[last]?.number ?? 0);
}

/** The passages of one clip in which a block is played. */
export interface CuesOfBlock {
  /** The clip's number in its lesson. */
  readonly index: number;
  readonly clip: Clip;
  /** Of the clip's cues those of the block, with their numbers there. */
  readonly cues: readonly (readonly [number: number, cue: ClipCue])[];
}

/** Which clips of a lesson play bars of a block, and where. */
export const cuesOfBlock = (lesson: Lesson, block: string): readonly CuesOfBlock[] =>
  lesson.clips.flatMap(({ clip }, index) => {
    const cues = [...(clip?.cues ?? []).entries()].filter(([, cue]) => cue.block === block);
    return clip && cues.length > 0 ? [{ index, clip, cues }] : [];
  });
