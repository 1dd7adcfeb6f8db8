/**
 * The harp the student holds: chosen once, kept in the browser, and named in the address of a page that is passed on.
 * No harp chosen means that every block is on the one it is written for.
 */
import type { Harp, Register } from '../../instrument/harp.ts';
import { harpName, readHarp } from '../../instrument/harp.ts';
import type { PitchClass } from '../../instrument/pitch.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../../instrument/temperament.ts';
import { RICHTER, type Tuning } from '../../instrument/tuning.ts';

/** The harp a student has chosen; its tuning stays the block’s. */
export interface ChosenHarp {
  readonly key: PitchClass;
  readonly register: Register;
}

/** What the student said of their harp; what they left open is the course's. */
export interface Chosen {
  readonly harp: ChosenHarp | undefined;
  readonly concertA: number;
  readonly temperament: Temperament;
}

/** Dispatched on `document` after a change; `detail` is a {@link Chosen}. */
export const HARP_EVENT = 'reedway:harp';
const STORED_AS = 'reedway-harp';
/** `?harp=low+F`. */
const PARAMETER = 'harp';

/** `low F`, as a value of the address and of storage. */
export const chosenName = (harp: ChosenHarp): string => harpName(onTuning(harp, RICHTER));

/** The student's harp in the tuning a block is written for. */
export const onTuning = (harp: ChosenHarp, tuning: Tuning): Harp => ({ ...harp, tuning });

function readChosenHarp(text: unknown): ChosenHarp | undefined {
  const harp = typeof text === 'string' ? readHarp(text, RICHTER) : undefined;
  return harp && { key: harp.key, register: harp.register };
}

const readConcertA = (value: unknown): number | undefined =>
  typeof value === 'number' && value >= CONCERT_A_RANGE.from && value <= CONCERT_A_RANGE.to ? value : undefined;
const readTemperament = (value: unknown): Temperament | undefined => TEMPERAMENTS.find(({ id }) => id === value);

interface Stored {
  readonly harp?: unknown;
  readonly concertA?: unknown;
  readonly temperament?: unknown;
}

/** What is stored is read as untrusted: another version or another program may have written it. */
function readStored(): Stored {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(STORED_AS) ?? '{}');
    return typeof value === 'object' && value !== null ? value : {};
  } catch {
    return {};
  }
}

/** How the course's harps are tuned, as its pages say at their root. */
function ofCourse(): { readonly concertA: number; readonly temperament: Temperament } {
  const { concertA, temperament } = document.documentElement.dataset;
  return { concertA: readConcertA(Number(concertA)) ?? CONCERT_A, temperament: readTemperament(temperament) ?? EQUAL };
}

/** The harp in the address is preferred to the stored one: the address was made for this page. */
export function readChosen(): Chosen {
  const stored = readStored();
  const course = ofCourse();
  return {
    harp: readChosenHarp(new URLSearchParams(location.search).get(PARAMETER)) ?? readChosenHarp(stored.harp),
    concertA: readConcertA(stored.concertA) ?? course.concertA,
    temperament: readTemperament(stored.temperament) ?? course.temperament,
  };
}

/** Whether pages have to be drawn differently from how they were built. */
export function differs({ harp, concertA, temperament }: Chosen): boolean {
  const course = ofCourse();
  return harp !== undefined || concertA !== course.concertA || temperament !== course.temperament;
}

/** Stores a choice, puts it in the address, and notifies everything on the page. */
export function choose(chosen: Chosen): void {
  const course = ofCourse();
  const stored: Stored = {
    ...(chosen.harp ? { harp: chosenName(chosen.harp) } : {}),
    ...(chosen.concertA === course.concertA ? {} : { concertA: chosen.concertA }),
    ...(chosen.temperament === course.temperament ? {} : { temperament: chosen.temperament.id }),
  };
  try {
    if (Object.keys(stored).length === 0) localStorage.removeItem(STORED_AS);
    else localStorage.setItem(STORED_AS, JSON.stringify(stored));
  } catch {
    // A browser that keeps nothing still shows what was chosen, on this page.
  }
  nameInAddress(chosen);
  document.dispatchEvent(new CustomEvent<Chosen>(HARP_EVENT, { detail: chosen }));
}

/** The address names the harp the page shows, so that who is sent it sees the same. */
export function nameInAddress({ harp }: Chosen): void {
  const address = new URL(location.href);
  if (harp) address.searchParams.set(PARAMETER, chosenName(harp));
  else address.searchParams.delete(PARAMETER);
  if (address.href !== location.href) history.replaceState(history.state, '', address);
}

/** Calls back when another tab of this browser has chosen. */
export function onChosenElsewhere(call: () => void): void {
  addEventListener('storage', ({ key }) => {
    if (key === STORED_AS || key === null) call();
  });
}
