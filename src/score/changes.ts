/** What changes from one bar of a score to the next, as a reader needs to know. */
import { type SongKey, signatureOf } from '../harmony/key.ts';
import { type Feel, feelName } from '../time/feel.ts';
import { equals } from '../time/fraction.ts';
import { type Meter, meterName, tempoNote } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { repeatStarts } from './playing-order.ts';
import { endingOpenedBy } from './queries.ts';
import type { Score, TempoChange } from './score.ts';
import { temposOf } from './tempo.ts';

/** What a bar has differently from the one written before it; undefined where it is the same. */
export interface BarChanges {
  readonly meter?: Meter;
  readonly feel?: Feel;
  /** The position with its key, where either is another. */
  readonly position?: number;
  readonly key?: SongKey;
  /** Whether the key has another signature. */
  readonly signature?: true;
  readonly tempo?: ShownTempo;
}

/** A change of tempo, with the tempo at which its bar begins, in the unit of the change. */
export interface ShownTempo extends TempoChange {
  readonly at: number;
}

/**
 * The changes before each bar. Nothing changes before the first one, unless the tempo moves from there on. Where the tempo counts another note
 * than before, as from 4/4 to 6/8, it is said again.
 */
export function changesOf(score: Pick<Score, 'bars' | 'tempo' | 'meter'>): BarChanges[] {
  const tempos = temposOf(score);
  return score.bars.map((bar, index) => {
    const before = score.bars[index - 1] ?? bar;
    const moved = bar.position !== before.position || bar.key.mode !== before.key.mode;
    const { from } = itemAt(tempos, index);
    const sameNote = equals(tempoNote(bar.meter), tempoNote(before.meter));
    const sameTempo = from === (tempos[index - 1]?.to ?? score.tempo) && bar.tempo?.from === undefined;
    const tempo: TempoChange = {
      ...(sameNote && sameTempo ? {} : { from }),
      ...(bar.tempo?.to === undefined ? {} : { to: bar.tempo.to }),
    };
    return {
      ...(meterName(bar.meter) === meterName(before.meter) ? {} : { meter: bar.meter }),
      ...(feelName(bar.feel) === feelName(before.feel) ? {} : { feel: bar.feel }),
      ...(moved ? { position: bar.position, key: bar.key } : {}),
      ...(signatureOf(bar.key) === signatureOf(before.key) ? {} : { signature: true }),
      ...(Object.keys(tempo).length === 0 ? {} : { tempo: { ...tempo, at: from } }),
    };
  });
}

/**
 * Bars that playing comes to from a later bar or past others, where the tempo changes within the score: a reader who goes back has the tempo of
 * where it comes from, and so it is said again there.
 */
export function tempoSaidAgain(
  score: Pick<Score, 'bars' | 'pickup'>,
  changes: readonly BarChanges[],
): ReadonlySet<number> {
  if (!changes.some(({ tempo }) => tempo)) return new Set();
  const again = new Set(repeatStarts(score));
  if (score.bars.some(({ jump }) => jump === 'D.C.')) again.add(0);
  for (const bar of score.bars)
    if (bar.repeatStart || bar.target !== undefined || endingOpenedBy(score, bar) !== undefined) again.add(bar.index);
  return again;
}
