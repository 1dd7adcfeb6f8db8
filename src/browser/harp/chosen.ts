/**
 * The harp the student holds: chosen once, kept in the browser, and named in the address of a page that is passed on.
 * No harp chosen means that every block is on the one it is written for.
 */
import type { Harp, Register } from '../../instrument/harp.ts';
import { harpName, readHarp } from '../../instrument/harp.ts';
import type { PitchClass } from '../../instrument/pitch.ts';
import { CONCERT_A, CONCERT_A_RANGE, EQUAL, TEMPERAMENTS, type Temperament } from '../../instrument/temperament.ts';
import { RICHTER, TUNINGS, type Tuning } from '../../instrument/tuning.ts';

/** The key and the register of the harp a student has chosen. */
export interface ChosenHarp {
  readonly key: PitchClass;
  readonly register: Register;
}

/** The tuning of the student's harp, for music that is written for the usual tuning of the course. What is written for another stays on it. */
export interface ChosenTuning {
  readonly tuning: Tuning;
  /** The id of the usual one. */
  readonly inPlaceOf: string;
}

/** What the student said of their harp; what they left open is the course's. */
export interface Chosen {
  readonly harp: ChosenHarp | undefined;
  /** Undefined on pages that are about one tuning. */
  readonly tuned: ChosenTuning | undefined;
  readonly concertA: number;
  readonly temperament: Temperament;
}

/** What a page for another harp needs did not come in time. */
export class LoadingTooSlow extends Error {}

/** Dispatched on `document` after a change; `detail` is a {@link Chosen}. */
export const HARP_EVENT = 'reedway:harp';
const STORED_AS = 'reedway-harp';
/** `?harp=low+F&tuning=natural-minor`. */
const HARP_PARAMETER = 'harp';
const TUNING_PARAMETER = 'tuning';

/** `low F`, as a value of the address and of storage. */
export const chosenName = (harp: ChosenHarp): string => harpName({ ...harp, tuning: RICHTER });

/** The student's harp for music that is written for a harp. */
export const studentsHarp = ({ harp, tuned }: Pick<Chosen, 'harp' | 'tuned'>, written: Harp): Harp => ({
  key: harp?.key ?? written.key,
  register: harp?.register ?? written.register,
  tuning: tuned && written.tuning.id === tuned.inPlaceOf ? tuned.tuning : written.tuning,
});

function readChosenHarp(text: unknown): ChosenHarp | undefined {
  const harp = typeof text === 'string' ? readHarp(text, RICHTER) : undefined;
  return harp && { key: harp.key, register: harp.register };
}

const readConcertA = (value: unknown): number | undefined =>
  typeof value === 'number' && value >= CONCERT_A_RANGE.from && value <= CONCERT_A_RANGE.to ? value : undefined;
const readTemperament = (value: unknown): Temperament | undefined => TEMPERAMENTS.find(({ id }) => id === value);

/** The tunings of the course, with those of its own, and its usual one, as its pages say at their root. */
export function tuningsOfCourse(): { readonly usual: string; readonly tunings: readonly Tuning[] } {
  const { tuning, tunings } = document.documentElement.dataset;
  const own = tunings === undefined ? [] : (JSON.parse(tunings) as readonly Tuning[]);
  return { usual: tuning ?? RICHTER.id, tunings: [...TUNINGS, ...own] };
}

/** The tuning with an id, where it is another than the usual one. */
export function readTuned(id: unknown): ChosenTuning | undefined {
  const { usual, tunings } = tuningsOfCourse();
  const tuning = tunings.find((one) => one.id === id);
  return tuning && tuning.id !== usual ? { tuning, inPlaceOf: usual } : undefined;
}

/** Whether the page is about one tuning, and shows no other. */
const isOfOneTuning = (): boolean => document.documentElement.dataset['oneTuning'] !== undefined;

interface Stored {
  readonly harp?: unknown;
  readonly tuning?: unknown;
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

const harpOf = (harp: unknown, tuning: unknown): Pick<Chosen, 'harp' | 'tuned'> => ({
  harp: readChosenHarp(harp),
  tuned: isOfOneTuning() ? undefined : readTuned(tuning),
});

/**
 * The harp in the address is preferred to the stored one: the address was made for this page. It names a whole harp: where it names a
 * key or a tuning, what is stored adds nothing to it.
 */
export function readChosen(): Chosen {
  const stored = readStored();
  const course = ofCourse();
  const address = new URLSearchParams(location.search);
  const named = harpOf(address.get(HARP_PARAMETER), address.get(TUNING_PARAMETER));
  return {
    ...(named.harp || named.tuned ? named : harpOf(stored.harp, stored.tuning)),
    concertA: readConcertA(stored.concertA) ?? course.concertA,
    temperament: readTemperament(stored.temperament) ?? course.temperament,
  };
}

/** Whether pages have to be drawn differently from how they were built. */
export function differs({ harp, tuned, concertA, temperament }: Chosen): boolean {
  const course = ofCourse();
  return (
    harp !== undefined || tuned !== undefined || concertA !== course.concertA || temperament !== course.temperament
  );
}

/** Stores a choice, puts it in the address, and notifies everything on the page. */
export function choose(chosen: Chosen): void {
  const course = ofCourse();
  // A page about one tuning keeps the choice that it does not offer.
  const tuning = isOfOneTuning() ? readTuned(readStored().tuning)?.tuning.id : chosen.tuned?.tuning.id;
  const stored: Stored = {
    ...(tuning === undefined ? {} : { tuning }),
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
export function nameInAddress({ harp, tuned }: Chosen): void {
  const address = new URL(location.href);
  const { searchParams } = address;
  if (harp) searchParams.set(HARP_PARAMETER, chosenName(harp));
  else searchParams.delete(HARP_PARAMETER);
  if (tuned) searchParams.set(TUNING_PARAMETER, tuned.tuning.id);
  else searchParams.delete(TUNING_PARAMETER);
  if (address.href !== location.href) history.replaceState(history.state, '', address);
}

/** Calls back when another tab of this browser has chosen. */
export function onChosenElsewhere(call: () => void): void {
  addEventListener('storage', ({ key }) => {
    if (key === STORED_AS || key === null) call();
  });
}
