/** How loud each part is, for all blocks of the page at once. */
import { SOUND_PARTS, type SoundPart } from '../../sound/mixing-desk.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { PlayerActions } from '../actions.ts';
import { labelled, make, setPressed, slider, toggle } from '../dom.ts';
import type { PageMix } from '../page-mix.ts';

const VOLUME_RANGE = { least: 0, most: 100, step: 1 };
/** The keys of each part's texts: its name, and its being muted. The metronome is switched where one practises. */
const TEXTS = {
  tune: ['tune', 'muteTune'],
  bass: ['bass', 'muteBass'],
  drums: ['drums', 'muteDrums'],
  chords: ['chords', 'muteChords'],
  drone: ['drone', 'muteDrone'],
} as const satisfies Record<Exclude<SoundPart, 'click'>, readonly [string, string]>;

/** The volume and mute controls of all parts. */
export function mixer({ pageMix }: PlayerActions): HTMLElement {
  const rows = SOUND_PARTS.flatMap((part) => (part === 'click' ? [] : [channel(part, pageMix)]));
  return make('fieldset', { class: 'player-mix' }, make('legend', {}, sheetText('band')), ...rows);
}

/** The slider and the mute button of a part. */
export function channel(part: keyof typeof TEXTS, pageMix: PageMix): HTMLElement {
  const [name, muteText] = TEXTS[part];
  const mute = toggle(sheetText('mute'), false, (muted) => pageMix.set(part, { muted }));
  mute.setAttribute('aria-label', sheetText(muteText));
  pageMix.watch(part, ({ muted }) => setPressed(mute, muted));
  return labelled(sheetText(name), loudness(part, pageMix), mute);
}

/** The slider of a part, which shows its loudness in percent by whatever it is set. */
export function loudness(part: SoundPart, pageMix: PageMix): HTMLInputElement {
  const volume = slider(VOLUME_RANGE, 0, (percent) => pageMix.set(part, { level: percent / 100 }));
  pageMix.watch(part, ({ level }) => {
    const percent = Math.round(level * 100);
    volume.value = String(percent);
    volume.setAttribute('aria-valuetext', sheetText('percent', { percent }));
  });
  return volume;
}
