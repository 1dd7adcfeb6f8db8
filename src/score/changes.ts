/** What changes from one bar of a score to the next, as a reader needs to know. */
import { type SongKey, signatureOf } from '../harmony/key.ts';
import { type Feel, feelName } from '../time/feel.ts';
import { equals } from '../time/fraction.ts';
import { type Meter, meterName, tempoNote } from '../time/meter.ts';
import { itemAt } from '../values/checked.ts';
import { repeatStarts } from './playing-order.ts';
import { endingOpenedBy } from './queries.ts';
import type { Bar, Score, TempoChange } from './score.ts';
import { endingStarts, temposOf } from './tempo.ts';

/** What a bar has differently from the one written before it, or from another one that it is played after; undefined where it is the same. */
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
 * than before, as from 4/4 to 6/8, it is said again. A later ending and the coda say what is not as in the bar that is played before them,
 * too: a reader who comes from there has not seen what is written in between.
 */
export function changesOf(score: Pick<Score, 'bars' | 'tempo' | 'meter'>): BarChanges[] {
  const tempos = temposOf(score);
  const also = comesFrom(score.bars);
  return score.bars.map((bar, index) => {
    const before = [index - 1, also.get(index) ?? -1].filter((at) => at >= 0);
    const same = (of: (one: Bar) => unknown): boolean => before.every((at) => of(itemAt(score.bars, at)) === of(bar));
    const { from } = itemAt(tempos, index);
    const sameNote = before.every((at) => equals(tempoNote(itemAt(score.bars, at).meter), tempoNote(bar.meter)));
    const sameTempo = before.length === 0 ? from === score.tempo : before.every((at) => itemAt(tempos, at).to === from);
    const tempo: TempoChange = {
      ...(sameNote && sameTempo && bar.tempo?.from === undefined ? {} : { from }),
      ...(bar.tempo?.to === undefined ? {} : { to: bar.tempo.to }),
    };
    return {
      ...(same(({ meter }) => meterName(meter)) ? {} : { meter: bar.meter }),
      ...(same(({ feel }) => feelName(feel)) ? {} : { feel: bar.feel }),
      ...(same(({ position }) => position) && same(({ key }) => key.mode)
        ? {}
        : { position: bar.position, key: bar.key }),
      ...(same(({ key }) => signatureOf(key)) ? {} : { signature: true }),
      ...(Object.keys(tempo).length === 0 ? {} : { tempo: { ...tempo, at: from } }),
    };
  });
}

/** Of bars that are not only played after the one written before them, the other one: of a later ending that before all endings, of the coda that of the jump to it. */
function comesFrom(bars: readonly Bar[]): ReadonlyMap<number, number> {
  const from = new Map(endingStarts(bars));
  const coda = bars.findIndex(({ target }) => target === 'coda');
  const jump = bars.findIndex((bar) => bar.jump === 'to-coda');
  if (coda >= 0 && jump >= 0) from.set(coda, jump);
  return from;
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
