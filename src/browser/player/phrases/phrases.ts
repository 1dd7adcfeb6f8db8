/**
 * The phrases that a block repeats: one is chosen, and is then heard alone or left out, looped, and shown wherever it is. Loaded where a
 * block repeats some; what the player has already is handed over, as to the sheets of large type.
 */
import type { BarRange, Layer } from '../../../schedule/settings.ts';
import type { RepeatedPhrase } from '../../../score/phrases.ts';
import type { itemAt } from '../../../values/checked.ts';
import type { playerText } from '../../texts/player.ts';
import type { PlayerActions } from '../actions.ts';
import type { button, choice, labelled, make } from '../dom.ts';

/** What the controls for phrases have from the player. */
export interface PhraseTools {
  readonly itemAt: typeof itemAt;
  readonly playerText: typeof playerText;
  readonly button: typeof button;
  readonly choice: typeof choice;
  readonly labelled: typeof labelled;
  readonly make: typeof make;
}

const ALL = 'all';

/** The controls for the phrases of a block. */
export function phrases(
  phrases: readonly RepeatedPhrase[],
  { settings, change, chooseBars, showPhrase }: PlayerActions,
  { itemAt, playerText, button, choice, labelled, make }: PhraseTools,
): HTMLElement {
  const { layer: before } = settings();
  let chosen = before?.phrase;
  /** How often the loop was asked for, since the phrase was chosen. */
  let looped = 0;

  const which = choice(
    [
      { value: '', text: playerText('noPhrase') },
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
      { value: ALL, text: playerText('hearAll') },
      { value: 'alone', text: playerText('hearPhraseAlone') },
      { value: 'not', text: playerText('leavePhraseOut') },
    ] satisfies readonly { readonly value: Layer['heard'] | typeof ALL; readonly text: string }[],
    before?.heard ?? ALL,
    hear,
  );
  const loop = button(playerText('loopPhrase'), () => {
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
    make('legend', {}, playerText('phrases')),
    labelled(playerText('phrase'), which),
    labelled(playerText('hearPhrase'), heard),
    loop,
  );
}
