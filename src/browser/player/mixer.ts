/** How loud each part is, for all blocks of the page at once. */
import { SOUND_PARTS, type SoundPart } from '../sound/mixing-desk.ts';
import { playerText } from '../texts/player.ts';
import type { PlayerActions } from './actions.ts';
import { labelled, make, setPressed, slider, toggle } from './dom.ts';
import type { PageMix } from './page-mix.ts';

const VOLUME_RANGE = { least: 0, most: 100, step: 1 };
/** The keys of each part's texts: its name, and its being muted. */
const TEXTS = {
  tune: ['tune', 'muteTune'],
  bass: ['bass', 'muteBass'],
  drums: ['drums', 'muteDrums'],
  chords: ['chords', 'muteChords'],
  click: ['metronome', 'muteMetronome'],
  drone: ['drone', 'muteDrone'],
} as const satisfies Record<SoundPart, readonly [string, string]>;

/** The volume and mute controls of all parts. */
export function mixer({ pageMix }: PlayerActions): HTMLElement {
  const rows = SOUND_PARTS.filter((part) => part !== 'click').map((part) => channel(part, pageMix));
  return make('fieldset', { class: 'player-mix' }, make('legend', {}, playerText('band')), ...rows);
}

function channel(part: SoundPart, pageMix: PageMix): HTMLElement {
  const [name, muteText] = TEXTS[part];
  const loudness = slider(VOLUME_RANGE, 0, (percent) => pageMix.set(part, { level: percent / 100 }));
  const mute = toggle(playerText('mute'), false, (muted) => pageMix.set(part, { muted }));
  mute.setAttribute('aria-label', playerText(muteText));
  pageMix.watch(part, ({ level, muted }) => {
    const percent = Math.round(level * 100);
    loudness.value = String(percent);
    loudness.setAttribute('aria-valuetext', playerText('percent', { percent }));
    setPressed(mute, muted);
  });
  return labelled(playerText(name), loudness, mute);
}
