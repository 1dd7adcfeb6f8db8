/** The tempo, in percent of the written one and in beats a minute. */
import { isCompound } from '../../../time/meter.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { ControlRow, PlayerActions } from '../actions.ts';
import { labelled, make, numberField, slider } from '../dom.ts';
import { tempoInWords } from '../in-words.ts';
import { TEMPO_PERCENT_RANGE, tempoScale } from '../tempo.ts';

/** The tempo controls: a slider in percent and a field in beats a minute. */
export function tempoRow({ playback, settings, change }: PlayerActions): ControlRow {
  const { tempo: written, meter } = playback();
  const beats = isCompound(meter) ? 'dottedQuartersPerMinute' : 'quartersPerMinute';
  const ofPercent = (percent: number): number => (written * percent) / 100;
  // No `output`: it would be read aloud in addition to its slider.
  const said = make('span', { class: 'player-said' });
  const percentage = slider(
    TEMPO_PERCENT_RANGE,
    100,
    (percent) => showTempo(ofPercent(percent)),
    (percent) => change({ tempo: ofPercent(percent) }),
  );
  const minute = numberField(tempoScale(written), Math.round(written), (tempo) => change({ tempo }));

  function showTempo(tempo: number): void {
    const percent = Math.round((100 * tempo) / written);
    percentage.value = String(percent);
    percentage.setAttribute('aria-valuetext', sheetText('tempoSaid', { percent, tempo: tempoInWords(tempo) }));
    minute.value = String(Math.round(tempo));
    said.textContent = sheetText('percentSign', { percent });
  }

  const show = (): void => showTempo(settings().tempo);
  show();
  return {
    element: make(
      'div',
      { class: 'player-row' },
      labelled(sheetText('tempo'), percentage, said),
      labelled(sheetText(beats), minute),
    ),
    show,
  };
}
