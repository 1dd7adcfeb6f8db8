/**
 * The harp the student holds: chosen once, kept in the browser, and named in the address of a page that is passed on.
 * `undefined` means none was chosen, and every block stands on the harp it is written for.
 */
import type { Harp, Register } from '../../instrument/harp.ts';
import { harpName, readHarp } from '../../instrument/harp.ts';
import type { PitchClass } from '../../instrument/pitch.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../../instrument/temperament.ts';
import { RICHTER, type Tuning } from '../../instrument/tuning.ts';

export interface ChosenHarp {
  readonly key: PitchClass;
  readonly register: Register;
}

/** Dispatched on `document` after a change; `detail` is a {@link Chosen}. */
export const HARP_EVENT = 'reedway:harp';
export const STORED_AS = 'reedway-harp';
/** `?harp=low+F`. */
export const PARAMETER = 'harp';

/** What the student said of their harp. */
export interface Chosen {
  readonly harp: ChosenHarp | undefined;
  readonly concertA: number;
  readonly temperament: Temperament;
}

/** `low F`, as a value of the address and of storage. */
export const chosenName = (harp: ChosenHarp): string => harpName(onTuning(harp, RICHTER));

/** The student's harp in the tuning a block is written for. */
export const onTuning = (harp: ChosenHarp, tuning: Tuning): Harp => ({ ...harp, tuning });

export function readChosenHarp(text: string | null | undefined): ChosenHarp | undefined {
  const harp = text ? readHarp(text, RICHTER) : undefined;
  return harp && { key: harp.key, register: harp.register };
}

/** What is kept is read as untrusted: another version or another hand may have written it. */
function readStored(): { readonly harp?: unknown; readonly concertA?: unknown; readonly temperament?: unknown } {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(STORED_AS) ?? '{}');
    return typeof value === 'object' && value !== null ? value : {};
  } catch {
    return {};
  }
}

/** The address decides over what is kept, since somebody meant it. */
export function readChosen(defaults: { readonly concertA?: number; readonly temperament?: Temperament } = {}): Chosen {
  const stored = readStored();
  const named = new URLSearchParams(location.search).get(PARAMETER);
  const { concertA } = stored;
  const sane = typeof concertA === 'number' && concertA >= CONCERT_A_RANGE.from && concertA <= CONCERT_A_RANGE.to;
  return {
    harp: readChosenHarp(named) ?? (typeof stored.harp === 'string' ? readChosenHarp(stored.harp) : undefined),
    concertA: sane ? concertA : (defaults.concertA ?? CONCERT_A),
    temperament: TEMPERAMENTS.find(({ id }) => id === stored.temperament) ?? defaults.temperament ?? EQUAL,
  };
}
