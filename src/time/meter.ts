import { divide, type Fraction, fraction, toNumber } from './fraction.ts';

/** A time signature: `beats` over `unit`. */
export interface Meter {
  readonly beats: number;
  readonly unit: (typeof UNITS)[number];
}

const UNITS = [2, 4, 8, 16] as const;

/** Reads `4/4`, `12/8`; undefined for what is no meter (1 to 16 beats of a half, quarter, eighth or sixteenth). */
export function readMeter(text: string): Meter | undefined {
  const match = /^(\d{1,2})\s*\/\s*(2|4|8|16)$/.exec(text.trim());
  if (!match) return undefined;
  const beats = Number(match[1]);
  const unit = UNITS.find((one) => one === Number(match[2]));
  return unit && beats >= 1 && beats <= 16 ? { beats, unit } : undefined;
}

/** `12/8`: the meter as an author writes it. */
export const meterName = (meter: Meter): string => `${meter.beats}/${meter.unit}`;

/** The length of a full bar, as a fraction of a whole note. */
export const barLength = (meter: Meter): Fraction => fraction(meter.beats, meter.unit);

/** Compound meters (6/8, 9/8, 12/8) are felt in dotted beats of three. */
export const isCompound = (meter: Meter): boolean => meter.unit >= 8 && meter.beats >= 6 && meter.beats % 3 === 0;

/** The beat a player taps: a quarter in 4/4, a dotted quarter in 12/8. */
export const beatLength = (meter: Meter): Fraction => fraction(isCompound(meter) ? 3 : 1, meter.unit);

/** Beats a bar has, as a player counts them. */
export const beatsInBar = (meter: Meter): number => toNumber(divide(barLength(meter), beatLength(meter)));

/**
 * The note whose number a minute is the tempo: a quarter, or a dotted quarter in compound time, whatever the beat's unit
 * (so 2/2 at 120 has 120 quarters a minute).
 */
export const tempoNote = (meter: Meter): Fraction => (isCompound(meter) ? fraction(3, 8) : fraction(1, 4));

/** Seconds of a whole note at a tempo. */
export const secondsOfWhole = (meter: Meter, tempo: number): number => 60 / (tempo * toNumber(tempoNote(meter)));
