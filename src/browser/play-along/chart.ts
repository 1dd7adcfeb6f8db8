/** The chart of the form that is played: its bars as a grid, the chord of the moment and the next one in large letters. */
import { printedChord, printedNumeral } from '../../harmony/chord.ts';
import type { Moment } from '../../schedule/plan.ts';
import { isPlayedChord, type Playback, type PlayedChange } from '../../score/playback.ts';
import { make } from '../player/dom.ts';
import { playAlongText } from '../texts/play-along.ts';
import type { Showing } from '../transport.ts';

/** A chord with the bar and the tick it comes in at. */
interface Place {
  readonly bar: number;
  readonly change: PlayedChange;
}

const nameOf = (change: PlayedChange | undefined): string =>
  change && isPlayedChord(change) ? printedChord(change) : playAlongText('noChord');

const sameChord = (a: PlayedChange | undefined, b: PlayedChange | undefined): boolean => nameOf(a) === nameOf(b);

/** The chord that sounds at a moment, and the first other one after it, from the top of the form after its end. */
export function chordsAt({ bars }: Pick<Playback, 'bars'>, { bar, tick }: Pick<Moment, 'bar' | 'tick'>) {
  const places: Place[] = bars.flatMap(({ chords }, index) => chords.map((change) => ({ bar: index, change })));
  const found = places.findLastIndex((place) => place.bar < bar || (place.bar === bar && place.change.at <= tick));
  const now = places[found]?.change;
  const after = [...places.slice(found + 1), ...places.slice(0, found + 1)];
  return { now, next: after.find(({ change }) => !sameChord(change, now))?.change };
}

/** A chart, and what it shows of the playing. */
export interface Chart {
  readonly element: HTMLElement;
  /** Draws the bars of a form again: in another key, say. */
  readonly draw: () => void;
  readonly show: (showing: Showing | undefined) => void;
}

/** The chart of what `playback` is at the moment. */
export function createChart(playback: () => Playback): Chart {
  const place = make('p', { class: 'along-place' });
  const now = make('b', {});
  const next = make('b', {});
  const labelled = (key: 'now' | 'next', chord: HTMLElement): HTMLElement =>
    make('p', { class: `along-${key}` }, make('span', { class: 'label' }, playAlongText(key)), chord);
  const grid = make('ol', { class: 'along-bars' });
  const element = make(
    'div',
    { class: 'along-chart' },
    place,
    make('div', { class: 'along-chords' }, labelled('now', now), labelled('next', next)),
    grid,
  );

  function draw(): void {
    grid.replaceChildren(
      ...playback().bars.map(({ chords }) =>
        make(
          'li',
          {},
          ...chords.map((change) =>
            make(
              'span',
              {},
              nameOf(change),
              ...(isPlayedChord(change) && change.numeral
                ? [' ', make('small', {}, printedNumeral(change.numeral))]
                : []),
            ),
          ),
        ),
      ),
    );
    grid.hidden = playback().form === 0;
    show(undefined);
  }

  function show(showing: Showing | undefined): void {
    const { bars } = playback();
    const moment = showing?.moment ?? { bar: 0, tick: 0 };
    const chords = chordsAt(playback(), moment);
    element.classList.toggle('without-chords', playback().form === 0);
    now.textContent = nameOf(chords.now);
    next.textContent = nameOf(chords.next);
    place.textContent = showing?.counting
      ? playAlongText('counting')
      : showing
        ? [
            playAlongText('chorus', { number: showing.round + 1 }),
            playAlongText('barOf', { bar: moment.bar + 1, bars: bars.length }),
          ].join(' · ')
        : '';
    for (const [index, cell] of [...grid.children].entries()) {
      const sounds = showing !== undefined && !showing.counting && index === moment.bar;
      cell.classList.toggle('now', sounds);
      if (sounds) cell.setAttribute('aria-current', 'true');
      else cell.removeAttribute('aria-current');
    }
  }

  draw();
  return { element, draw, show };
}
