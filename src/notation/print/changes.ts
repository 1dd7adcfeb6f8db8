/** The settings that change within a block, as the lines that say so. */
import { readNumeral } from '../../harmony/numeral.ts';
import { chromaOf } from '../../instrument/pitch.ts';
import type { Bar, BarSettings } from '../../score/score.ts';
import { feelName } from '../../time/feel.ts';
import { equals } from '../../time/fraction.ts';
import { meterName } from '../../time/meter.ts';
import { slotName } from '../setting-values.ts';

/** The lines before a bar whose settings are others than those before it. */
export function printChanges(before: BarSettings, bar: BarSettings, tempo: Bar['tempo']): string[] {
  const lines: string[] = [];
  const moved = bar.position !== before.position;
  if (moved) lines.push(`position: ${bar.position}`);
  const named = bar.keyNamed ? bar.key.mode : undefined;
  const namedBefore = before.keyNamed && !moved ? before.key.mode : undefined;
  if (named !== undefined && named !== namedBefore) lines.push(`key: ${named}`);
  if (meterName(bar.meter) !== meterName(before.meter)) lines.push(`meter: ${meterName(bar.meter)}`);
  if (tempo)
    lines.push(
      `tempo: ${[tempo.from, tempo.to === undefined ? undefined : `to ${tempo.to}`].filter((one) => one !== undefined).join(' ')}`,
    );
  if (feelName(bar.feel) !== feelName(before.feel)) lines.push(`feel: ${feelName(bar.feel)}`);
  if (!equals(bar.slot, before.slot)) lines.push(`slot: ${slotName(bar.slot)}`);
  return lines;
}

/**
 * Whether the first chord of a bar in a new position may be what its mode goes by: then it is written there, also where it sounds on from
 * the bar before.
 */
export function saysMode(before: BarSettings, { position, key, keyNamed, chords }: Bar): boolean {
  const chord = chords[0]?.chord;
  if (position === before.position || keyNamed || chord === undefined || chord === 'none') return false;
  if (chromaOf(chord.root) !== chromaOf(key.tonic) || readNumeral(chord.numeral ?? '')?.of !== undefined) return false;
  const third = chord.tones.find(({ degree }) => degree === 3)?.semitones;
  return third === (key.mode === 'minor' ? 3 : 4);
}
