/** The controls that stay at the foot of the window: play, tempo, loop, speed-up, and the button that opens the others. */
import { rangeInWords } from '../../score/bar-words.ts';
import { playerText } from '../texts/player.ts';
import { isRunning, type PlayState } from '../transport.ts';
import type { ControlRow, PlayerActions } from './actions.ts';
import { button, make, setPressed, toggle } from './dom.ts';
import { tempoInWords } from './in-words.ts';
import { tempoScale, usualClimb } from './tempo.ts';

/** Tempos that take one press, in percent of the written one. */
const PERCENTS = [50, 60, 75, 100];
/** Beats a minute that a press makes it slower or faster. */
const TEMPO_STEP = 4;

/** The main controls, and what they show beside the settings. */
export interface MainControls extends ControlRow {
  readonly play: HTMLElement;
  readonly more: HTMLElement;
  readonly showState: (state: PlayState) => void;
  /** The tempo of a round, counted from 0: in a loop that speeds up it is not the one that was set. */
  readonly showRound: (round: number, tempo: number) => void;
  /** Whether the block is out of sight, so that one may want to go back to it. */
  readonly showAway: (away: boolean) => void;
}

/** `openMore` is called when the button for further controls is pressed. */
export function mainControls(
  { playback, settings, change, playOrPause, stop, seeMusic }: PlayerActions,
  title: string,
  openMore: () => void,
): MainControls {
  const play = button(playerText('play'), playOrPause, { class: 'player-play' });
  const ofPercent = (percent: number): number => (playback().tempo * percent) / 100;
  const percents = PERCENTS.map((percent) => ({
    percent,
    button: button(playerText('percentOf', { percent }), () => change({ tempo: ofPercent(percent) })),
  }));
  const tempo = make('span', { class: 'player-now' }, tempoInWords(settings().tempo));
  const loop = toggle(playerText('loop'), false, (on) => change({ loop: on }));
  const speedUp = toggle(playerText('speedUp'), false, (on) => {
    const { tempo, climb = lastClimb } = settings();
    // Only a loop has rounds, and no goal is reached that is not above the tempo.
    const usable = climb && climb.goal > tempo ? climb : usualClimb(tempo, playback().tempo);
    change(on ? { loop: true, climb: usable } : { climb: undefined });
  });
  /** The step and the goal that were set last. */
  let lastClimb = settings().climb;
  const more = button(playerText('more'), openMore, { 'aria-expanded': 'false' });
  const round = make('span', { class: 'player-round' });
  const back = button(playerText('toTheMusic'), seeMusic, { class: 'player-back', hidden: true });

  const step = (by: number): void => {
    const { least, most } = tempoScale(playback().tempo);
    change({ tempo: Math.min(most, Math.max(least, Math.round(settings().tempo) + by)) });
  };

  function show(): void {
    const { range, loop: loops, climb, tempo } = settings();
    lastClimb = climb ?? lastClimb;
    for (const { percent, button } of percents)
      setPressed(button, Math.round(tempo) === Math.round(ofPercent(percent)));
    setPressed(loop, loops);
    loop.textContent = range
      ? playerText('loopBars', { bars: rangeInWords(playback().bars, range) })
      : playerText('loop');
    // A goal that is reached already speeds nothing up: a press then sets another.
    setPressed(speedUp, climb !== undefined && climb.goal > tempo);
  }

  show();
  const symbol = (sign: string, key: 'slower' | 'faster', by: number): HTMLElement =>
    button(sign, () => step(by), { class: 'player-step', 'aria-label': playerText(key) });
  return {
    element: make(
      'div',
      { class: 'player-main' },
      make('p', { class: 'player-status' }, make('span', { class: 'player-title' }, title), tempo, round, back),
      make(
        'div',
        { class: 'player-row' },
        play,
        button(playerText('stop'), stop),
        loop,
        more,
        make(
          'span',
          { class: 'player-tempo', role: 'group', 'aria-label': playerText('tempo') },
          symbol('−', 'slower', -TEMPO_STEP),
          ...percents.map(({ button }) => button),
          symbol('+', 'faster', TEMPO_STEP),
        ),
        speedUp,
      ),
    ),
    play,
    more,
    show,
    showState: (state) => {
      play.textContent = playerText(isRunning(state) ? 'pause' : 'play');
      play.dataset['state'] = state;
    },
    showRound: (number, tempoNow) => {
      tempo.textContent = tempoInWords(tempoNow);
      round.textContent = number > 0 ? playerText('round', { number: number + 1 }) : '';
    },
    showAway: (away) => {
      if (!away && back.matches(':focus')) play.focus({ preventScroll: true });
      back.hidden = !away;
    },
  };
}
