/** The tempo, in percent of the written one and in beats a minute. */
import { isCompound } from '../../time/meter.ts';
import { playerText } from '../texts/player.ts';
import type { PlayerActions } from './actions.ts';
import { labelled, make, numberField, type SliderRange, slider } from './dom.ts';
import { tempoInWords } from './in-words.ts';

const TEMPO_PERCENT_RANGE = { least: 30, most: 150, step: 1 };

/** Beats a minute, as far as the slider goes. */
export const tempoScale = (written: number): SliderRange => ({
  least: Math.round((written * TEMPO_PERCENT_RANGE.least) / 100),
  most: Math.round((written * TEMPO_PERCENT_RANGE.most) / 100),
  step: 1,
});

/** The tempo controls: a slider in percent and a field in beats a minute. */
export function tempoRow({ playback, settings, change }: PlayerActions): HTMLElement {
  const { tempo: written, meter } = playback();
  const beats = isCompound(meter) ? 'dottedQuartersPerMinute' : 'quartersPerMinute';
  const ofPercent = (percent: number): number => (written * percent) / 100;
  // No `output`: it would be read aloud in addition to its slider.
  const said = make('span', { class: 'player-said' });
  const percentage = slider(
    TEMPO_PERCENT_RANGE,
    100,
    (percent) => show(ofPercent(percent)),
    (percent) => change({ tempo: ofPercent(percent) }),
  );
  const minute = numberField(tempoScale(written), Math.round(written), (tempo) => {
    show(tempo);
    change({ tempo });
  });

  function show(tempo: number): void {
    const percent = Math.round((100 * tempo) / written);
    percentage.value = String(percent);
    percentage.setAttribute('aria-valuetext', playerText('tempoSaid', { percent, tempo: tempoInWords(tempo) }));
    minute.value = String(Math.round(tempo));
    said.textContent = playerText('percentSign', { percent });
  }

  show(settings().tempo);
  return make(
    'div',
    { class: 'player-row' },
    labelled(playerText('tempo'), percentage, said),
    labelled(playerText(beats), minute),
  );
}
