/** How a block's player learns what a link asks it to play. Types alone: a value that two scripts share would be a file that pages load. */
import type { PlaySettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';

/** The settings that are asked of a block as it is written. */
export type Asked = (written: Playback) => Partial<PlaySettings>;

declare global {
  interface HTMLElementEventMap {
    /** Dispatched on the element of an open player, which takes on the settings that `detail` returns. */
    asked: CustomEvent<Asked>;
  }
}
