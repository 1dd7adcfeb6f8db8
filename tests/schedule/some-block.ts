import { readBlock } from '../../src/notation/read.ts';
import type { PlaySettings } from '../../src/schedule/settings.ts';
import { playedPhrases } from '../../src/score/phrases.ts';
import type { Playback } from '../../src/score/playback.ts';
import { playbackOf } from '../../src/score/playback-of.ts';

export function playbackFrom(text: string): Playback {
  const { score, diagnostics } = readBlock(text);
  if (!score) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return { ...playbackOf(score), ...playedPhrases(score) };
}

export const SETTINGS: PlaySettings = { tempo: 90, swing: 0.5, loop: false, countIn: false, trade: false, seed: 1 };
