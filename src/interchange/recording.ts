/** What a recording of a block is made from. */
import type { Pitching } from '../instrument/temperament.ts';
import type { Playback } from '../score/playback.ts';
import type { Players } from './formats.ts';

/** What to record: a value that goes through JSON unchanged. */
export interface Recording {
  readonly playback: Playback;
  readonly players: Players;
  /** How the harp is tuned; equal, to 440 Hz, where it is left open. */
  readonly pitching: Pitching;
}
