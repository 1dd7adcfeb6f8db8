/** The controls of a block's player: all of them buttons, sliders and fields with names. */
import type { BarRange } from '../../schedule/settings.ts';
import { playerText } from '../texts/player.ts';
import type { PlayState } from '../transport.ts';
import type { PlayerActions } from './actions.ts';
import { barsRow } from './bars.ts';
import { button, make, setPressed, toggle } from './dom.ts';
import { droneRow } from './drone.ts';
import { tempoInWords } from './in-words.ts';
import { mixer } from './mixer.ts';
import { phrases } from './phrases.ts';
import { practice } from './practice.ts';
import { tempoRow } from './tempo.ts';

/** The controls below a block, and what they show. */
export interface Controls {
  readonly element: HTMLElement;
  readonly showState: (state: PlayState) => void;
  readonly showRange: (range: BarRange | undefined) => void;
  readonly showLoop: (loop: boolean) => void;
  readonly showRound: (round: number, tempo: number) => void;
  readonly showLargeType: (open: boolean) => void;
  readonly showHarp: () => void;
  readonly focusPlay: () => void;
  /** Where on the screen the main row begins, which stays at the bottom; the bottom itself while the row is hidden. */
  readonly top: () => number;
}

/** The controls of a block's player. */
export function createControls(wiring: PlayerActions): Controls {
  const main = mainRow(wiring);
  const bars = barsRow(wiring);
  const drone = droneRow(wiring);
  const more = make(
    'details',
    { class: 'player-more' },
    make('summary', {}, playerText('practiceAndBand')),
    practice(wiring, main.showLoop),
    phrases(wiring) ?? '',
    mixer(wiring),
    drone.element,
  );
  const element = make(
    'div',
    { class: 'player', role: 'group', 'aria-label': playerText('player') },
    main.element,
    tempoRow(wiring),
    bars.element,
    more,
  );
  return {
    element,
    showState: main.showState,
    showRange: bars.showRange,
    showLoop: main.showLoop,
    showRound: main.showRound,
    showLargeType: main.showLargeType,
    showHarp: drone.showHarp,
    focusPlay: () => main.play.focus({ preventScroll: true }),
    top: () => {
      const { top } = main.element.getBoundingClientRect();
      return top > 0 ? top : innerHeight;
    },
  };
}

function mainRow({ settings, change, playOrPause, stop, openLargeType }: PlayerActions) {
  const play = button(playerText('play'), playOrPause, { class: 'player-play' });
  const loop = toggle(playerText('loop'), settings().loop, (on) => change({ loop: on }));
  const large = toggle(playerText('largeType'), false, openLargeType);
  const round = make('span', { class: 'player-round' });
  return {
    element: make(
      'div',
      { class: 'player-row player-main' },
      play,
      button(playerText('stop'), stop),
      loop,
      large,
      round,
    ),
    play,
    showState: (state: PlayState): void => {
      play.textContent = playerText(state === 'playing' || state === 'counting' ? 'pause' : 'play');
      play.dataset['state'] = state;
    },
    showLargeType: (open: boolean) => setPressed(large, open),
    showLoop: (on: boolean) => setPressed(loop, on),
    showRound: (number: number, tempo: number): void => {
      round.textContent = number > 0 ? playerText('round', { number: number + 1, tempo: tempoInWords(tempo) }) : '';
    },
  };
}
