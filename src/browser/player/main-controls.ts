/** The controls that stay at the foot of the window: play, tempo, loop, speed-up, and the button that opens the others. */
import { barsInWords } from '../../score/bar-words.ts';
import { playerText } from '../texts/player.ts';
import type { PlayState } from '../transport.ts';
import type { ControlRow, PlayerActions } from './actions.ts';
import { button, choice, make, setPressed, toggle } from './dom.ts';
import { tempoInWords } from './in-words.ts';
import { tempoScale, usualClimb } from './tempo.ts';

/** The tempos that one chooses among, in percent of the written one. */
const PERCENTS = [40, 50, 60, 70, 80, 90, 100, 110, 120];
/** Beats a minute that a press makes it slower or faster. */
const TEMPO_STEP = 4;

/** The main controls, and what they show beside the settings. */
export interface MainControls extends ControlRow {
  readonly play: HTMLElement;
  readonly more: HTMLElement;
  readonly showState: (state: PlayState) => void;
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
  const tempo = choice([], '', (percent) => change({ tempo: (playback().tempo * Number(percent)) / 100 }));
  tempo.setAttribute('aria-label', playerText('tempo'));
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

  function showTempo(): void {
    const written = playback().tempo;
    const percent = Math.round((100 * settings().tempo) / written);
    // What was set otherwise is offered as well.
    const percents = [...new Set([...PERCENTS, percent])].sort((a, b) => a - b);
    tempo.replaceChildren(
      ...percents.map((value) => {
        const beats = Math.round(value === percent ? settings().tempo : (written * value) / 100);
        return make('option', { value }, playerText('tempoOf', { percent: value, beats }));
      }),
    );
    tempo.value = String(percent);
  }

  function show(): void {
    const { range, loop: loops, climb } = settings();
    const { bars } = playback();
    lastClimb = climb ?? lastClimb;
    const numberOf = (bar: number): number => bars[bar]?.number ?? bar + 1;
    showTempo();
    setPressed(loop, loops);
    loop.textContent = range
      ? playerText('loopBars', { bars: barsInWords(numberOf(range.first), numberOf(range.last)) })
      : playerText('loop');
    setPressed(speedUp, climb !== undefined);
  }

  show();
  const symbol = (sign: string, key: 'slower' | 'faster', by: number): HTMLElement =>
    button(sign, () => step(by), { class: 'player-step', 'aria-label': playerText(key) });
  return {
    element: make(
      'div',
      { class: 'player-main' },
      make('p', { class: 'player-status' }, make('span', { class: 'player-title' }, title), round, back),
      make(
        'div',
        { class: 'player-row' },
        play,
        button(playerText('stop'), stop),
        make(
          'span',
          { class: 'player-tempo' },
          symbol('−', 'slower', -TEMPO_STEP),
          tempo,
          symbol('+', 'faster', TEMPO_STEP),
        ),
        loop,
        speedUp,
        more,
      ),
    ),
    play,
    more,
    show,
    showState: (state) => {
      play.textContent = playerText(state === 'playing' || state === 'counting' ? 'pause' : 'play');
      play.dataset['state'] = state;
    },
    showRound: (number, tempo) => {
      round.textContent = number > 0 ? playerText('round', { number: number + 1, tempo: tempoInWords(tempo) }) : '';
    },
    showAway: (away) => {
      if (!away && back.matches(':focus')) play.focus({ preventScroll: true });
      back.hidden = !away;
    },
  };
}
