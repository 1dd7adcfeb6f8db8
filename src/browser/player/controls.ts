/** The controls of a block's player: all of them buttons, sliders and fields with names. */
import type { BarRange } from '../../schedule/settings.ts';
import { itemAt } from '../../values/checked.ts';
import { playerText } from '../texts/player.ts';
import type { PlayState } from '../transport.ts';
import type { PlayerActions } from './actions.ts';
import { barsRow } from './bars.ts';
import { button, choice, labelled, make, setPressed, toggle } from './dom.ts';
import { droneRow } from './drone.ts';
import { tempoInWords } from './in-words.ts';
import { mixer } from './mixer.ts';
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
  /** Offers what there is to choose in a block that its author has changed, set as it was. */
  readonly showMusic: () => void;
  readonly focusPlay: () => void;
  /** Where on the screen the main row begins, which stays at the bottom; the bottom itself while the row is hidden. */
  readonly top: () => number;
}

/** The controls of a block's player. */
export function createControls(wiring: PlayerActions): Controls {
  const main = mainRow(wiring);
  const drone = droneRow(wiring);
  /** What depends on the block's bars, tempo and phrases. */
  const ofMusic = () => ({
    tempo: tempoRow(wiring),
    bars: barsRow(wiring),
    practice: practice(wiring, main.showLoop),
    phrases: phrasesRow(wiring),
  });
  let rows = ofMusic();
  const more = make(
    'details',
    { class: 'player-more' },
    make('summary', {}, playerText('practiceAndBand')),
    rows.practice.element,
    rows.phrases,
    mixer(wiring),
    drone.element,
  );
  const element = make(
    'div',
    { class: 'player', role: 'group', 'aria-label': playerText('player') },
    main.element,
    rows.tempo,
    rows.bars.element,
    more,
  );

  function showMusic(): void {
    const before = rows;
    rows = ofMusic();
    inPlaceOf(before.tempo, rows.tempo);
    inPlaceOf(before.bars.element, rows.bars.element);
    inPlaceOf(before.practice.element, rows.practice.element);
    inPlaceOf(before.phrases, rows.phrases);
    main.showLoop(wiring.settings().loop);
    drone.showHarp();
  }
  return {
    element,
    showState: main.showState,
    showRange: (range) => rows.bars.showRange(range),
    showLoop: main.showLoop,
    showRound: (round, tempo) => {
      main.showRound(round, tempo);
      rows.practice.showTempo();
    },
    showLargeType: main.showLargeType,
    showHarp: drone.showHarp,
    showMusic,
    focusPlay: () => main.play.focus({ preventScroll: true }),
    top: () => {
      const { top } = main.element.getBoundingClientRect();
      return top > 0 ? top : innerHeight;
    },
  };
}

/** The control of the same place has the focus where one of the row had it. */
function inPlaceOf(before: HTMLElement, now: HTMLElement): void {
  const controlsOf = (row: HTMLElement): HTMLElement[] => [
    ...row.querySelectorAll<HTMLElement>('input, select, button'),
  ];
  const focused = controlsOf(before).findIndex((control) => control.matches(':focus'));
  before.replaceWith(now);
  controlsOf(now)[focused]?.focus({ preventScroll: true });
}

/** Holds the controls for phrases once they are loaded, where the block repeats any. Without them it is played all the same. */
function phrasesRow(wiring: PlayerActions): HTMLElement {
  const row = make('div');
  const { phrases: repeated = [] } = wiring.playback();
  if (repeated.length > 0) {
    import('./phrases/phrases.ts').then(
      ({ phrases }) => row.append(phrases(repeated, wiring, { itemAt, playerText, button, choice, labelled, make })),
      () => {},
    );
  }
  return row;
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
