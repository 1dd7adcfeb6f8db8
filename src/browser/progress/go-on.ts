/** Offers again what was reached in a block: a button beside the one of its player, which opens it with the settings of last time. */
import { writtenSettings } from '../../schedule/settings.ts';
import { rangeInWords } from '../../score/bar-words.ts';
import type { Playback } from '../../score/playback.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { SWING_PERCENT_RANGE } from '../../time/swing.ts';
import { PLAYED_EVENT, type Played } from '../player/played.ts';
import { goOnText } from '../texts/go-on.ts';
import { howLongAgo } from './how-long-ago.ts';
import { progressHere } from './own-progress.ts';
import { entryOf } from './record.ts';
import { readBlockSettings, settingsFor, TEMPO_SHARES } from './remembered.ts';

/** Puts the offer of a block beside its player’s button, where it says anything but to play the block as it is written. */
export function offerToGoOn(within: HTMLElement, key: string): void {
  const player = within.closest('[data-block]')?.querySelector('reedway-player');
  const written = player?.querySelector('script')?.textContent;
  const entry = entryOf(progressHere().progress(), 'settings', key);
  const remembered = readBlockSettings(entry?.value);
  // The player is open already, or an author has taken it away.
  if (!player || !written || !entry || !remembered || player.querySelector('.go-on')) return;
  const playback = JSON.parse(written) as Playback;
  const own = writtenSettings(playback);
  const settings = settingsFor(remembered, playback, {
    tempo: { least: own.tempo * TEMPO_SHARES.least, most: own.tempo * TEMPO_SHARES.most },
    // A feel can be written that swings harder than a student may choose.
    swing: {
      least: Math.min(own.swing, SWING_PERCENT_RANGE.least / 100),
      most: Math.max(own.swing, SWING_PERCENT_RANGE.most / 100),
    },
  });
  const { range } = settings;
  const isAsWritten =
    !range &&
    !settings.loop &&
    Math.abs(settings.tempo - own.tempo) < 0.5 &&
    Math.abs(settings.swing - own.swing) < 0.01;
  if (isAsWritten) return;
  const tempo = Math.round(settings.tempo);
  const what = range
    ? goOnText('barsAt', { bars: rangeInWords(playback.bars, range), tempo })
    : goOnText('wholeAt', { tempo });
  const when = howLongAgo(entry.at, Date.now(), LANGUAGE);
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'go-on';
  button.textContent = when === undefined ? goOnText('goOn', { what }) : goOnText('goOnSince', { what, when });
  // Several of them on a page have the names of their blocks, as the buttons beside them have.
  const title = player.querySelector('button .aloud');
  if (title) button.append(title.cloneNode(true));
  const hear = player.querySelector('button');
  button.addEventListener('click', () => {
    // While the player is being loaded, the button beside it is disabled.
    if (!hear?.disabled) hear?.dispatchEvent(new CustomEvent('click', { detail: settings }));
  });
  hear?.after(' ', button);
  const endOffer = ({ detail }: CustomEventInit<Played>): void => {
    if (detail?.host !== player) return;
    button.remove();
    document.removeEventListener(PLAYED_EVENT, endOffer);
  };
  document.addEventListener(PLAYED_EVENT, endOffer);
}
