/** What changes from one bar of a score to the next, as a reader needs to know. */
import { type SongKey, signatureOf } from '../harmony/key.ts';
import { type Feel, feelName } from '../time/feel.ts';
import { type Meter, meterName } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
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
  readonly tempo?: TempoChange;
}

/** The changes before each bar. Nothing changes before the first one, unless the tempo moves from there on. */
export function changesOf(score: Pick<Score, 'bars' | 'tempo' | 'meter'>): BarChanges[] {
  const tempos = temposOf(score);
  return score.bars.map((bar, index) => {
    const before = score.bars[index - 1] ?? bar;
    const moved = bar.position !== before.position || bar.key.mode !== before.key.mode;
    const { from } = itemAt(tempos, index);
    const tempo: TempoChange = {
      ...(from !== (tempos[index - 1]?.to ?? score.tempo) || bar.tempo?.from !== undefined ? { from } : {}),
      ...(bar.tempo?.to === undefined ? {} : { to: bar.tempo.to }),
    };
    return {
      ...(meterName(bar.meter) === meterName(before.meter) ? {} : { meter: bar.meter }),
      ...(feelName(bar.feel) === feelName(before.feel) ? {} : { feel: bar.feel }),
      ...(moved ? { position: bar.position, key: bar.key } : {}),
      ...(signatureOf(bar.key) === signatureOf(before.key) ? {} : { signature: true }),
      ...(Object.keys(tempo).length === 0 ? {} : { tempo }),
    };
  });
}
