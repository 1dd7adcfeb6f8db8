/** A button that copies the address of the block with the bars, tempo, loop and harp that are set now. */
import { linkTempo, writeBlockLink } from '../../../schedule/block-link.ts';
import { linkInWords } from '../../block-link/in-words.ts';
import { readChosen } from '../../harp/chosen.ts';
import { blockLinkText } from '../../texts/block-link.ts';
import type { PlayerActions } from '../actions.ts';
import { button, labelled, make } from '../dom.ts';

/** The button, with what it has to say behind it. */
export function copyLink({ block, playback, settings }: PlayerActions): HTMLElement {
  const said = make('span', { class: 'player-copied', role: 'status' });
  const place = make('span');

  async function copy(): Promise<void> {
    const music = playback();
    const { range, tempo, loop } = settings();
    const { harp, tuned } = readChosen();
    const isWritten = Math.round(tempo) === Math.round(music.tempo);
    const link = {
      ...(range && { bars: range }),
      ...(isWritten ? {} : { tempo: linkTempo(Math.round(tempo)) }),
      loop,
      ...(harp && { harp }),
      ...(tuned && { tuning: tuned.tuning.id }),
    };
    const address = new URL(location.href);
    address.search = writeBlockLink(link, music.bars);
    address.hash = block.id;
    const what = linkInWords({ ...link, tempo }, music);
    place.replaceChildren();
    try {
      await navigator.clipboard.writeText(address.href);
      said.textContent = blockLinkText('copied', { what });
    } catch {
      // Refused, or a page without https: then the student copies it.
      said.textContent = '';
      const field = make('input', { type: 'text', readonly: true, value: address.href, class: 'player-address' });
      place.replaceChildren(labelled(blockLinkText('copyByHand', { what }), field));
      field.focus();
      field.select();
    }
  }

  return make(
    'div',
    { class: 'player-row' },
    button(blockLinkText('copyLink'), () => void copy()),
    said,
    place,
  );
}
