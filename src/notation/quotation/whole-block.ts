/** A whole block as a quotation brings it: as it is played, its repeats written out, its parts and lyrics left behind. */
import type { TextSpan } from '../../diagnostics/diagnostic.ts';
import { playOrder } from '../../score/playing-order.ts';
import { isSoundEvent } from '../../score/queries.ts';
import type { Bar, BarSettings, Event, Score } from '../../score/score.ts';
import { equals } from '../../time/fraction.ts';
import { itemAt } from '../../values/checked.ts';
import type { Change } from '../changes.ts';
import type { FlowingItem } from '../flowing.ts';
import type { Settings } from '../settings.ts';
import { cutRest, writtenNote } from './quoted.ts';
import { type Keys, quotedSymbol } from './quoted-chord.ts';

/** Where a whole block is quoted. */
export interface QuotedPlace {
  /** The keys of its harp and of its song there. */
  readonly keys: Keys;
  readonly settings: Settings;
  /** Whether the chords of the block come with it. */
  readonly withChords: boolean;
  readonly site: TextSpan;
}

/** The music of a block, bar after bar; changes of meter, tempo and feel within it come with it. */
export function* wholeBlock(score: Score, place: QuotedPlace): Generator<FlowingItem> {
  let before: Bar | undefined;
  for (const index of playOrder(score)) {
    const bar = itemAt(score.bars, index);
    if (before) yield { kind: 'bar', line: { repeatStart: false, repeatEnd: false } };
    const change = changeBetween(before ?? score, bar, score, place.settings);
    if (change) yield { kind: 'change', change };
    before = bar;
    const keys = { song: bar.key, harp: score.harp.key };
    const chords = place.withChords ? bar.chords : [];
    for (const event of bar.events.flatMap((each): readonly Event[] =>
      isSoundEvent(each) ? [each] : cutRest(each, chords),
    )) {
      for (const { onset, chord } of chords)
        if (equals(onset, event.onset)) yield { kind: 'chord', text: quotedSymbol(chord, keys, place.keys) };
      if (!isSoundEvent(event)) yield { kind: 'rest', duration: event.duration };
      else if (event.tied) yield { kind: 'hold', slots: 1, duration: event.duration };
      else yield { kind: 'note', note: writtenNote(event, place.site), duration: event.duration };
      if (isSoundEvent(event) && event.glides) yield { kind: 'glide' };
    }
  }
}

/** Whether a block has changes that a quotation of it brings. */
export const hasChanges = (score: Score): boolean =>
  score.bars.some((bar) => bar.tempo || bar.meter !== score.meter || bar.feel !== score.feel);

/** What of a block's changes comes with its quotation. Its tempos keep their ratio to the one it begins with. */
function changeBetween(before: BarSettings, bar: Bar, { tempo }: Score, place: Settings): Change | undefined {
  const scaled = (own: number): number => Math.round((own * place.tempo) / tempo);
  const { from, to } = bar.tempo ?? {};
  const change: Change = {
    ...(bar.meter === before.meter ? {} : { meter: bar.meter }),
    ...(bar.feel === before.feel ? {} : { feel: bar.feel }),
    ...(bar.tempo
      ? {
          tempo: {
            ...(from === undefined ? {} : { from: scaled(from) }),
            ...(to === undefined ? {} : { to: scaled(to) }),
          },
        }
      : {}),
  };
  return Object.keys(change).length > 0 ? change : undefined;
}
