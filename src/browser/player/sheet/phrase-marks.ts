/** Shows one phrase wherever it is in a block: its brackets become thicker and its names bold (player.css). */
import { watchTiles } from '../watch-tiles.ts';

/** Marks the brackets of a phrase by its index; undefined marks none. The marks stay when the block is drawn again. */
export function markPhrases(block: HTMLElement): (phrase: number | undefined) => void {
  let shown: number | undefined;
  function mark(): void {
    for (const bracket of block.querySelectorAll<SVGElement>('[data-phrase]'))
      bracket.classList.toggle('in-focus', shown !== undefined && bracket.dataset['phrase'] === String(shown));
  }
  watchTiles(block, () => null, mark);
  return (phrase) => {
    shown = phrase;
    mark();
  };
}
