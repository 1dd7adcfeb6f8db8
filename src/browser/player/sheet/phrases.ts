/** The phrases that a block repeats: one is chosen, and is then heard alone or left out, looped, and shown wherever it is. */
import type { BarRange, Layer } from '../../../schedule/settings.ts';
import type { RepeatedPhrase } from '../../../score/phrases.ts';
import { itemAt } from '../../../values/checked.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { PlayerActions } from '../actions.ts';
import { button, choice, labelled, make } from '../dom.ts';

const ALL = 'all';

/** The controls for the phrases of a block. `showPhrase` shows one by its index wherever it is, and none where it is undefined. */
export function phrases(
  phrases: readonly RepeatedPhrase[],
  { settings, change, chooseBars }: PlayerActions,
  showPhrase: (phrase: number | undefined) => void,
): HTMLElement {
  const { layer: before } = settings();
  let chosen = before?.phrase;
  /** How often the loop was asked for, since the phrase was chosen. */
  let looped = 0;

  const which = choice(
    [
      { value: '', text: sheetText('noPhrase') },
      ...phrases.map(({ name }, index) => ({ value: String(index), text: name })),
    ],
    chosen === undefined ? '' : String(chosen),
    (value) => {
      chosen = value === '' ? undefined : Number(value);
      looped = 0;
      showPhrase(chosen);
      enable();
      hear();
    },
  );
  const heard = choice(
    [
      { value: ALL, text: sheetText('hearAll') },
      { value: 'alone', text: sheetText('hearPhraseAlone') },
      { value: 'not', text: sheetText('leavePhraseOut') },
    ] satisfies readonly { readonly value: Layer['heard'] | typeof ALL; readonly text: string }[],
    before?.heard ?? ALL,
    hear,
  );
  const loop = button(sheetText('loopPhrase'), () => {
    if (chosen === undefined) return;
    const { occurrences } = itemAt(phrases, chosen);
    const { first, last }: BarRange = itemAt(occurrences, looped % occurrences.length);
    looped++;
    chooseBars({ first, last });
  });

  function hear(): void {
    const { value } = heard;
    const layer: Layer | undefined =
      chosen !== undefined && (value === 'alone' || value === 'not') ? { phrase: chosen, heard: value } : undefined;
    change({ layer });
  }

  function enable(): void {
    heard.disabled = chosen === undefined;
    loop.disabled = chosen === undefined;
  }
  enable();
  showPhrase(chosen);

  return make(
    'fieldset',
    { class: 'player-phrases' },
    make('legend', {}, sheetText('phrases')),
    labelled(sheetText('phrase'), which),
    labelled(sheetText('hearPhrase'), heard),
    loop,
  );
}
