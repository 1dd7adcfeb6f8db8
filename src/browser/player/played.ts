/** What an open player says to the rest of its page. */
import type { PlaySettings } from '../../schedule/settings.ts';

/** Dispatched on `document` when a player plays, stops or is set in another way; `detail` is {@link Played}. */
export const PLAYED_EVENT = 'reedway:played';

/** How a player plays. */
export interface Played {
  /** The player’s element. */
  readonly host: HTMLElement;
  readonly settings: PlaySettings;
  readonly running: boolean;
  /** Counted from 0. */
  readonly round: number;
  /** That of the round, in the unit of the settings. */
  readonly tempo: number;
}
