/** What pages say of clips. */
import type { ClipCue } from '../course/clips.ts';
import { blockNamed, type Lesson } from '../course/course.ts';

/** The `id` of a clip's figure on its lesson's page, by its number there. */
export const clipAnchor = (index: number | string): string => `clip-${index}`;

/** `bar 5`, `bars 5 to 8`, `the pickup and bars 1 to 4`. */
export function barsInWords(lesson: Lesson, block: string, first: number, last: number): string {
  const bars = blockNamed(lesson, block)?.score?.bars ?? [];
  const [from, to] = [bars[first]?.number ?? 0, bars[last]?.number ?? 0];
  if (from === 0 && to === 0) return 'the pickup';
  const rest = Math.max(from, 1) === to ? `bar ${to}` : `bars ${Math.max(from, 1)} to ${to}`;
  return from === 0 ? `the pickup and ${rest}` : rest;
}

export interface CueOfBlock extends ClipCue {
  /** The clip's number in its lesson, and the cue's in the clip. */
  readonly clip: number;
  readonly number: number;
}

/** Where the clips of a lesson play bars of a block. */
export const cuesOfBlock = (lesson: Lesson, block: string): readonly CueOfBlock[] =>
  lesson.clips.flatMap(({ clip }, index) =>
    (clip?.cues ?? []).flatMap((cue, number) => (cue.block === block ? [{ ...cue, clip: index, number }] : [])),
  );
