/** The further controls of a block's player, which few use at every moment: loaded when they are first opened. */
import { sheetText } from '../../texts/player-sheet.ts';
import type { PlayerActions } from '../actions.ts';
import { make, setPressed, toggle } from '../dom.ts';
import { barsRow } from './bars.ts';
import { copyLink } from './copy-link.ts';
import { droneRow } from './drone.ts';
import { mixer } from './mixer.ts';
import { markPhrases } from './phrase-marks.ts';
import { phrases } from './phrases.ts';
import { practice } from './practice.ts';
import { tempoRow } from './tempo-fields.ts';

/** The further controls, and what they show. */
export interface FurtherControls {
  readonly element: HTMLElement;
  /** Shows the settings as they are. */
  readonly show: () => void;
  readonly showLargeType: () => void;
  readonly showHarp: () => void;
  /** Offers what there is to choose in a block that its author has changed. */
  readonly showMusic: () => void;
}

/** The further controls of a block. */
export function createSheet(wiring: PlayerActions): FurtherControls {
  const { block, playback, openLargeType, isLargeTypeOpen } = wiring;
  const large = toggle(sheetText('largeType'), isLargeTypeOpen(), openLargeType);
  const drone = droneRow(wiring);
  const showPhrase = markPhrases(block);
  const phrasesRow = (): HTMLElement => {
    const { phrases: repeated = [] } = playback();
    return make('div', {}, ...(repeated.length > 0 ? [phrases(repeated, wiring, showPhrase)] : []));
  };
  /** What depends on the block's bars, tempo and phrases. */
  const ofMusic = () => ({
    tempo: tempoRow(wiring),
    bars: barsRow(wiring),
    practice: practice(wiring),
    phrases: phrasesRow(),
  });
  let rows = ofMusic();

  function showMusic(): void {
    const before = rows;
    rows = ofMusic();
    inPlaceOf(before.tempo.element, rows.tempo.element);
    inPlaceOf(before.bars.element, rows.bars.element);
    inPlaceOf(before.practice.element, rows.practice.element);
    inPlaceOf(before.phrases, rows.phrases);
    drone.showHarp();
  }

  return {
    element: make(
      'div',
      {},
      make('div', { class: 'player-row' }, large),
      rows.tempo.element,
      rows.bars.element,
      rows.practice.element,
      rows.phrases,
      mixer(wiring),
      drone.element,
      copyLink(wiring),
    ),
    show: () => {
      rows.tempo.show();
      rows.bars.show();
      rows.practice.show();
    },
    showLargeType: () => setPressed(large, isLargeTypeOpen()),
    showHarp: drone.showHarp,
    showMusic,
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
