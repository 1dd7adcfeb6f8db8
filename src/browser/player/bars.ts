/** Which bars to play, chosen by their names; the tiles of the block offer the same. */
import type { BarRange } from '../../schedule/settings.ts';
import { barAmongAll } from '../../score/bar-words.ts';
import type { Playback } from '../../score/playback.ts';
import { playerText } from '../texts/player.ts';
import type { PlayerActions } from './actions.ts';
import { button, choice, labelled, make } from './dom.ts';

/** A part by its name, or from one bar to another. */
export function barsRow({ playback, chooseBars }: PlayerActions) {
  const { bars } = playback();
  const named = bars.map((bar, index) => ({ value: String(index), text: barAmongAll(bar) }));
  const read = (): BarRange => {
    const [a, b] = [Number(from.value), Number(to.value)];
    return { first: Math.min(a, b), last: Math.max(a, b) };
  };
  const choose = (range: BarRange | undefined): void => {
    showRange(range);
    chooseBars(range);
  };
  const from = choice(named, '0', () => choose(read()));
  const to = choice(named, String(bars.length - 1), () => choose(read()));
  const all = button(playerText('allBars'), () => choose(undefined));
  const parts = partsOf(playback());
  const part = choice(
    [
      { value: '', text: playerText('wholeBlock') },
      ...parts.map(({ name }, index) => ({ value: String(index), text: name })),
    ],
    '',
    (value) => choose(value === '' ? undefined : parts[Number(value)]),
  );

  function showRange(range: BarRange | undefined): void {
    from.value = String(range?.first ?? 0);
    to.value = String(range?.last ?? bars.length - 1);
    const named = parts.findIndex(({ first, last }) => first === range?.first && last === range.last);
    part.value = named < 0 ? '' : String(named);
  }

  return {
    element: make(
      'div',
      { class: 'player-row', role: 'group', 'aria-label': playerText('barsToPlay') },
      ...(parts.length > 1 ? [labelled(playerText('part'), part)] : []),
      labelled(playerText('from'), from),
      labelled(playerText('to'), to),
      all,
    ),
    showRange,
  };
}

/** The labelled parts of a block, each to the bar before the next. */
function partsOf({ bars }: Playback): (BarRange & { readonly name: string })[] {
  const starts = bars.flatMap((bar, index) => (bar.part === undefined ? [] : [{ name: bar.part, first: index }]));
  return starts.map((start, index) => ({ ...start, last: (starts[index + 1]?.first ?? bars.length) - 1 }));
}
