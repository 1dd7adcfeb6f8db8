/** What the controls of a block's player are wired to. */
import type { BarRange, PlaySettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';
import type { PageMix } from './page-mix.ts';

/** What the controls of one block’s player can do. */
export interface PlayerActions {
  readonly playback: () => Playback;
  readonly settings: () => PlaySettings;
  readonly change: (part: Partial<PlaySettings>) => void;
  readonly chooseBars: (range: BarRange | undefined) => void;
  /** Shows a phrase of the playback wherever it is; undefined shows none. */
  readonly showPhrase: (phrase: number | undefined) => void;
  readonly playOrPause: () => void;
  readonly stop: () => void;
  readonly openLargeType: (open: boolean) => void;
  readonly pageMix: PageMix;
  readonly ofMidi: (midi: number) => number;
  readonly wake: () => void;
}
