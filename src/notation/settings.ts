/** The settings of a block: its header, over the lesson's, over the course's, over these defaults. */
import type { Mode } from '../harmony/key.ts';
import type { Register } from '../instrument/harp.ts';
import type { PitchClass } from '../instrument/pitch.ts';
import { RICHTER, type Tuning } from '../instrument/tuning.ts';
import type { Mouth, Progression } from '../score/score.ts';
import { type Feel, STRAIGHT } from '../time/feel.ts';
import { type Fraction, fraction } from '../time/fraction.ts';
import type { Meter } from '../time/meter.ts';

/** The settings of a block that have a default. */
export interface Settings {
  readonly harp: { readonly key: PitchClass; readonly register: Register };
  readonly tuning: Tuning;
  readonly position: number;
  readonly meter: Meter;
  readonly tempo: number;
  readonly feel: Feel;
  readonly slot: Fraction;
  readonly mouth: Mouth;
  readonly progression?: Progression | undefined;
  readonly key?: NamedKey | undefined;
}

/** A key as an author names it: its mode alone, or with the tonic, which has to be that of harp and position. */
export interface NamedKey {
  readonly mode: Mode;
  readonly tonic?: PitchClass;
}

/** The settings where neither block nor lesson nor course says anything. */
export const DEFAULTS: Settings = {
  harp: { key: { letter: 'C', alter: 0 }, register: 'standard' },
  tuning: RICHTER,
  position: 1,
  meter: { beats: 4, unit: 4 },
  tempo: 80,
  feel: STRAIGHT,
  slot: fraction(1, 8),
  mouth: 'lips',
};
