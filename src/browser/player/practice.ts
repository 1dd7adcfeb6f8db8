/** How to practise: with a count, a metronome and gaps to answer in, faster each round, and with how much swing. */
import { isCompound } from '../../time/meter.ts';
import { SWING_PERCENT_RANGE } from '../../time/swing.ts';
import { playerText } from '../texts/player.ts';
import type { PlayerActions } from './actions.ts';
import { checkbox, freshId, labelled, make, numberField, slider } from './dom.ts';
import { tempoInWords } from './in-words.ts';
import { tempoScale } from './tempo.ts';

/** The controls for practising: count-in, metronome, speed-up, swing. `showTempo` is to be called when the tempo has changed. */
export function practice(
  { playback, settings, change, pageMix }: PlayerActions,
  showLoop: (on: boolean) => void,
): { readonly element: HTMLElement; readonly showTempo: () => void } {
  const { tempo, meter } = playback();
  const said = make('span', { class: 'player-said' });
  const showSwing = (percent: number): void => {
    said.textContent = swingText('swingShares', percent);
    swing.setAttribute('aria-valuetext', swingText('swingSaid', percent));
  };
  // Two thirds is no whole percentage, and is what a shuffle means.
  const exact = (percent: number): number => (percent === 67 ? 2 / 3 : percent / 100);
  const share = Math.round(settings().swing * 100);
  // A feel can be written that swings harder than most want to.
  const swing = slider(
    { ...SWING_PERCENT_RANGE, most: Math.max(SWING_PERCENT_RANGE.most, share) },
    share,
    showSwing,
    (percent) => change({ swing: exact(percent) }),
  );
  showSwing(share);

  const climbs = settings().climb;
  const step = numberField({ least: 1, most: 40, step: 1 }, climbs?.step ?? 4, () => climb(climbing.checked));
  const goal = numberField(tempoScale(tempo), climbs?.goal ?? Math.round(tempo * 1.2), () => climb(climbing.checked));
  const hint = make('span', { id: freshId() });
  goal.setAttribute('aria-describedby', hint.id);
  const climbing = checkbox(climbs !== undefined, (on) => climb(on));
  // Only a loop has rounds.
  function climb(on: boolean): void {
    change(on ? { loop: true, climb: { step: step.valueAsNumber, goal: goal.valueAsNumber } } : { climb: undefined });
    showLoop(settings().loop);
    showTempo();
  }
  // Nothing would be heard of a goal that is not above the tempo.
  function showTempo(): void {
    const { tempo, climb } = settings();
    hint.textContent = climb && climb.goal <= tempo ? playerText('goalTooLow', { tempo: tempoInWords(tempo) }) : '';
  }
  showTempo();
  const metronome = checkbox(false, (on) => pageMix.set('click', { muted: !on }));
  pageMix.watch('click', ({ muted }) => {
    metronome.checked = !muted;
  });

  const element = make(
    'fieldset',
    {},
    make('legend', {}, playerText('practice')),
    labelled(
      playerText('countInSetting'),
      checkbox(settings().countIn, (countIn) => change({ countIn })),
    ),
    labelled(playerText('metronome'), metronome),
    labelled(
      playerText('oneBarAtATime'),
      checkbox(settings().trade, (trade) => change({ trade })),
    ),
    make(
      'span',
      { class: 'field', role: 'group', 'aria-label': playerText('loopThatSpeedsUp') },
      labelled(playerText('speedUp'), climbing),
      labelled(playerText('speedUpBy'), step),
      labelled(playerText('speedUpTo'), goal, playerText('aMinute')),
      hint,
    ),
    ...(isCompound(meter) ? [] : [labelled(playerText('swing'), swing, said)]),
  );
  return { element, showTempo };
}

/** A swing by the percentage of the beat that its first half takes. */
const swingText = (key: 'swingShares' | 'swingSaid', percent: number): string =>
  percent === 50 ? playerText('straight') : playerText(key, { long: percent, short: 100 - percent });
