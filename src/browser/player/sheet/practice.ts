/** How to practise: with a count, a metronome and gaps to answer in, faster each round, and with how much swing. */
import { isCompound } from '../../../time/meter.ts';
import { SWING_PERCENT_RANGE } from '../../../time/swing.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { ControlRow, PlayerActions } from '../actions.ts';
import { checkbox, freshId, labelled, make, numberField, slider } from '../dom.ts';
import { tempoInWords } from '../in-words.ts';
import { tempoScale, usualClimb } from '../tempo.ts';
import { loudness } from './mixer.ts';

/** The controls for practising: count-in, metronome, speed-up, swing. */
export function practice({ playback, settings, change, pageMix }: PlayerActions): ControlRow {
  const { tempo: written, meter } = playback();
  const said = make('span', { class: 'player-said' });
  const showSwing = (percent: number): void => {
    swing.value = String(percent);
    said.textContent = swingText('swingShares', percent);
    swing.setAttribute('aria-valuetext', swingText('swingSaid', percent));
  };
  // Two thirds is no whole percentage, and is what a shuffle means.
  const exact = (percent: number): number => (percent === 67 ? 2 / 3 : percent / 100);
  const share = (): number => Math.round(settings().swing * 100);
  // A feel can be written that swings harder than most want to.
  const swing = slider(
    { ...SWING_PERCENT_RANGE, most: Math.max(SWING_PERCENT_RANGE.most, share()) },
    share(),
    showSwing,
    (percent) => change({ swing: exact(percent) }),
  );

  const { climb = usualClimb(settings().tempo, written) } = settings();
  const step = numberField({ least: 1, most: 40, step: 1 }, climb.step, () => speedUp(climbing.checked));
  const goal = numberField(tempoScale(written), climb.goal, () => speedUp(climbing.checked));
  const hint = make('span', { id: freshId() });
  goal.setAttribute('aria-describedby', hint.id);
  const climbing = checkbox(false, speedUp);
  // Only a loop has rounds.
  function speedUp(on: boolean): void {
    change(on ? { loop: true, climb: { step: step.valueAsNumber, goal: goal.valueAsNumber } } : { climb: undefined });
  }
  const metronome = checkbox(false, (on) => pageMix.set('click', { muted: !on }));
  const volume = loudness('click', pageMix);
  volume.setAttribute('aria-label', sheetText('metronomeVolume'));
  pageMix.watch('click', ({ muted }) => {
    metronome.checked = !muted;
  });
  const countIn = checkbox(false, (countIn) => change({ countIn }));
  const trade = checkbox(false, (trade) => change({ trade }));

  function show(): void {
    const { tempo, climb, countIn: counts, trade: trades } = settings();
    showSwing(share());
    countIn.checked = counts;
    trade.checked = trades;
    climbing.checked = climb !== undefined;
    if (climb) {
      step.value = String(climb.step);
      goal.value = String(climb.goal);
    }
    // Nothing would be heard of a goal that is not above the tempo.
    hint.textContent = climb && climb.goal <= tempo ? sheetText('goalTooLow', { tempo: tempoInWords(tempo) }) : '';
  }

  show();
  const element = make(
    'fieldset',
    {},
    make('legend', {}, sheetText('practice')),
    labelled(sheetText('countInSetting'), countIn),
    labelled(sheetText('metronome'), metronome, volume),
    labelled(sheetText('oneBarAtATime'), trade),
    make(
      'span',
      { class: 'field', role: 'group', 'aria-label': sheetText('loopThatSpeedsUp') },
      labelled(sheetText('speedUpEachRound'), climbing),
      labelled(sheetText('speedUpBy'), step),
      labelled(sheetText('speedUpTo'), goal, sheetText('aMinute')),
      hint,
    ),
    ...(isCompound(meter) ? [] : [labelled(sheetText('swing'), swing, said)]),
  );
  return { element, show };
}

/** A swing by the percentage of the beat that its first half takes. */
const swingText = (key: 'swingShares' | 'swingSaid', percent: number): string =>
  percent === 50 ? sheetText('straight') : sheetText(key, { long: percent, short: 100 - percent });
