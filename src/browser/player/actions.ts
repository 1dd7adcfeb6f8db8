/** What the controls of a block's player are wired to, and what all of them show. */
import type { BarRange, PlaySettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';
import type { PageMix } from './page-mix.ts';

/** What the controls of one block’s player can do. */
export interface PlayerActions {
  readonly block: HTMLElement;
  readonly playback: () => Playback;
  readonly settings: () => PlaySettings;
  readonly change: (part: Partial<PlaySettings>) => void;
  readonly chooseBars: (range: BarRange | undefined) => void;
  readonly playOrPause: () => void;
  readonly stop: () => void;
  /** Follows again to what is played, where controls may have covered it. */
  readonly keepInSight: () => void;
  /** Scrolls to what is played, or to the block. */
  readonly seeMusic: () => void;
  readonly openLargeType: (open: boolean) => void;
  readonly isLargeTypeOpen: () => boolean;
  readonly pageMix: PageMix;
  readonly ofMidi: (midi: number) => number;
  readonly wake: () => void;
}

/** Some controls. */
export interface ControlRow {
  readonly element: HTMLElement;
  /** Shows the settings as they are, whichever control or part of the page has changed them. */
  readonly show: () => void;
}
