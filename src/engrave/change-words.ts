/** What changes before a bar, in words: over the bar, and in the text alternative. */
import { printedKey } from '../harmony/key.ts';
import { positionInWords } from '../instrument/position.ts';
import type { BarChanges } from '../score/changes.ts';
import type { BarTempo } from '../score/tempo.ts';
import type { Feel } from '../time/feel.ts';
import { isCompound, type Meter, meterName } from '../time/meter.ts';

/** `♩ = 100` and `shuffle`: what the staff does not show by signs. The tempo is that of the bar. */
export function changeWords({ tempo, feel, position, key }: BarChanges, meter: Meter, { from }: BarTempo): string[] {
  const beat = isCompound(meter) ? '♩.' : '♩';
  const shown = (value: number): string => `${beat} = ${Math.round(value)}`;
  return [
    ...(tempo?.from === undefined ? [] : [shown(tempo.from)]),
    ...(tempo?.to === undefined ? [] : [`${directionOf(from, tempo.to)}, to ${shown(tempo.to)}`]),
    ...(feel ? [feelWord(feel)] : []),
    ...(position === undefined || !key ? [] : [`${positionInWords(position)}, ${printedKey(key)}`]),
  ];
}

/** The same for a voice, with the meter, one phrase for each change. */
export function changesAloud({ tempo, feel, position, key, meter }: BarChanges, { from }: BarTempo): string[] {
  return [
    ...(meter ? [`${meterName(meter)} time from here`] : []),
    ...(tempo?.from === undefined ? [] : [`${Math.round(tempo.from)} beats a minute from here`]),
    ...(tempo?.to === undefined ? [] : [`${directionOf(from, tempo.to)}, to ${Math.round(tempo.to)} beats a minute`]),
    ...(feel ? [`${feelWord(feel)} from here`] : []),
    ...(position === undefined || !key ? [] : [`${positionInWords(position)} from here, in ${printedKey(key)}`]),
  ];
}

const directionOf = (from: number, to: number): string => (to < from ? 'slower and slower' : 'faster and faster');

const feelWord = ({ name, long, short }: Feel): string =>
  name === 'straight' ? 'straight' : name === 'shuffle' ? 'shuffle' : `swing ${long}:${short}`;
