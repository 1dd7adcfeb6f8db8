/** What changes before a bar, in words: over the bar, and in the text alternative. */
import { printedKey } from '../harmony/key.ts';
import { positionInWords } from '../instrument/position.ts';
import type { BarChanges } from '../score/changes.ts';
import type { Feel } from '../time/feel.ts';
import { isCompound, type Meter, meterName } from '../time/meter.ts';

/** `♩ = 100` and `shuffle`: what the staff does not show by signs, before a bar in a meter. */
export function changeWords(changes: BarChanges, meter: Meter): string[] {
  const { tempo } = changes;
  return [...(tempo?.from === undefined ? [] : [tempoShown(tempo.from, meter)]), ...wordsBesideTempo(changes, meter)];
}

/** The same without the tempo from which the bar begins, for formats that have a sign for it. */
export function wordsBesideTempo({ tempo, feel, position, key }: BarChanges, meter: Meter): string[] {
  return [
    ...(tempo?.to === undefined ? [] : [`${directionOf(tempo.at, tempo.to)}, to ${tempoShown(tempo.to, meter)}`]),
    ...(feel ? [feelWord(feel)] : []),
    ...(position === undefined || !key ? [] : [`${positionInWords(position)}, ${printedKey(key)}`]),
  ];
}

/** The same for a voice, with the meter, one phrase for each change. */
export function changesAloud({ tempo, feel, position, key, meter }: BarChanges): string[] {
  return [
    ...(meter ? [`${meterName(meter)} time from here`] : []),
    ...(tempo?.from === undefined ? [] : [`${Math.round(tempo.from)} beats a minute from here`]),
    ...(tempo?.to === undefined
      ? []
      : [`${directionOf(tempo.at, tempo.to)}, to ${Math.round(tempo.to)} beats a minute`]),
    ...(feel ? [`${feelWord(feel)} from here`] : []),
    ...(position === undefined || !key ? [] : [`${positionInWords(position)} from here, in ${printedKey(key)}`]),
  ];
}

const tempoShown = (tempo: number, meter: Meter): string => `${isCompound(meter) ? '♩.' : '♩'} = ${Math.round(tempo)}`;

const directionOf = (from: number, to: number): string => (to < from ? 'slower and slower' : 'faster and faster');

const feelWord = ({ name, long, short }: Feel): string =>
  name === 'straight' ? 'straight' : name === 'shuffle' ? 'shuffle' : `swing ${long}:${short}`;
