/** How loud each part is before a student changes it. */
import type { SoundPart } from '../sound/mixing-desk.ts';

/** One fader of the mix. */
export interface Channel {
  /** 0 to 1. */
  readonly level: number;
  readonly muted: boolean;
}
/** The faders of all parts. */
export type Mix = { [part in SoundPart]: Channel };

/** What a student who has never moved a fader hears. Chosen by ear. */
export const DEFAULT_VOLUMES: Mix = {
  tune: { level: 0.9, muted: false },
  bass: { level: 0.8, muted: false },
  drums: { level: 0.7, muted: false },
  chords: { level: 0.7, muted: false },
  click: { level: 0.7, muted: true },
  drone: { level: 0.6, muted: false },
};
