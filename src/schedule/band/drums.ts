/** The drums: patterns with ornaments, a turn at the end of a phrase, a fill at the end of a chorus. */
import type { HitCue, Piece } from '../cue.ts';
import { type BandBar, letters, pick, uneven } from './bar.ts';
import type { DrumPattern } from './style.ts';

const PIECES: readonly (keyof DrumPattern & Piece)[] = ['kick', 'snare', 'stick', 'hat', 'ride'];

/** How often an ornament is played, and how loud a stroke of kick or snare may be to be one. */
const ORNAMENTS = { share: 0.6, loudest: 6 };

/** The drums of one bar. */
export function drumsOf(bar: BandBar): HitCue[] {
  const { style, chorus, ends, opens, random, kinds } = bar;
  const pattern = pick(style.drums, chorus);
  const ways = ends === 'chorus' ? style.fills : ends === 'phrase' ? style.turns : [];
  const fill = ways[Math.floor(random() * ways.length)];
  const hits: HitCue[] = [];
  for (const piece of PIECES) {
    const cells = pattern[piece];
    if (!cells) continue;
    const fills = (beat: number): boolean => piece === 'snare' && fill !== undefined && beat === kinds.length - 1;
    for (const { letter, at, beat, part } of letters(bar, (kind, beat) => (fills(beat) ? (fill ?? '') : cells[kind]))) {
      if (letter === '.') continue;
      const drum = piece === 'kick' || piece === 'snare';
      const ornament = drum && part > 0 && Number(letter) <= ORNAMENTS.loudest && !fills(beat);
      if (ornament && random() > ORNAMENTS.share) continue;
      // The hat or ride gives way to the cymbal.
      if (opens && !drum && piece !== 'stick' && beat === 0 && part === 0) continue;
      hits.push({ kind: 'hit', at, piece, level: uneven(Number(letter) / 9, random) });
    }
  }
  const start = bar.time(0, 0, 1);
  if (opens && start !== undefined) hits.push({ kind: 'hit', at: start, piece: 'ride', level: 1 });
  return hits;
}
