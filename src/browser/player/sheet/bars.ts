/** Which bars to play, chosen by their names; the tiles of the block offer the same. */
import type { BarRange } from '../../../schedule/settings.ts';
import { barAmongAll } from '../../../score/bar-words.ts';
import type { Playback } from '../../../score/playback.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { ControlRow, PlayerActions } from '../actions.ts';
import { button, choice, labelled, make } from '../dom.ts';

/** A part by its name, or from one bar to another. */
export function barsRow({ playback, settings, chooseBars }: PlayerActions): ControlRow {
  const { bars } = playback();
  const named = bars.map((bar, index) => ({ value: String(index), text: barAmongAll(bar) }));
  const read = (): BarRange => {
    const [a, b] = [Number(from.value), Number(to.value)];
    return { first: Math.min(a, b), last: Math.max(a, b) };
  };
  const from = choice(named, '0', () => chooseBars(read()));
  const to = choice(named, String(bars.length - 1), () => chooseBars(read()));
  const all = button(sheetText('allBars'), () => chooseBars(undefined));
  const parts = partsOf(playback());
  const part = choice(
    [
      { value: '', text: sheetText('wholeBlock') },
      ...parts.map(({ name }, index) => ({ value: String(index), text: name })),
    ],
    '',
    (value) => chooseBars(value === '' ? undefined : parts[Number(value)]),
  );

  function show(): void {
    const { range } = settings();
    from.value = String(range?.first ?? 0);
    to.value = String(range?.last ?? bars.length - 1);
    const named = parts.findIndex(({ first, last }) => first === range?.first && last === range.last);
    part.value = named < 0 ? '' : String(named);
  }

  show();
  return {
    element: make(
      'div',
      { class: 'player-row', role: 'group', 'aria-label': sheetText('barsToPlay') },
      ...(parts.length > 1 ? [labelled(sheetText('part'), part)] : []),
      labelled(sheetText('from'), from),
      labelled(sheetText('to'), to),
      all,
    ),
    show,
  };
}

/** The labelled parts of a block, each to the bar before the next. */
function partsOf({ bars }: Playback): (BarRange & { readonly name: string })[] {
  const starts = bars.flatMap((bar, index) => (bar.part === undefined ? [] : [{ name: bar.part, first: index }]));
  return starts.map((start, index) => ({ ...start, last: (starts[index + 1]?.first ?? bars.length) - 1 }));
}
