/** How loud each part is, for all blocks of the page at once. */
import { PARTS, type Part } from '../sound/studio.ts';
import { playerText } from '../texts/player.ts';
import type { Desk } from './desk.ts';
import { labelled, make, press, slider, toggle } from './dom.ts';
import type { Wiring } from './wiring.ts';

const LEVEL = { least: 0, most: 100, step: 1 };
/** The keys of each part's texts: its name, and its being muted. */
const TEXTS = {
  tune: ['tune', 'muteTune'],
  bass: ['bass', 'muteBass'],
  drums: ['drums', 'muteDrums'],
  chords: ['chords', 'muteChords'],
  click: ['metronome', 'muteMetronome'],
  drone: ['drone', 'muteDrone'],
} as const satisfies Record<Part, readonly [string, string]>;

export function mixer({ desk }: Wiring): HTMLElement {
  const rows = PARTS.filter((part) => part !== 'click').map((part) => channel(part, desk));
  return make('fieldset', { class: 'player-mix' }, make('legend', {}, playerText('band')), ...rows);
}

function channel(part: Part, desk: Desk): HTMLElement {
  const [name, muteText] = TEXTS[part];
  const loudness = slider(LEVEL, 0, (percent) => desk.set(part, { level: percent / 100 }));
  const mute = toggle(playerText('mute'), false, (muted) => desk.set(part, { muted }));
  mute.setAttribute('aria-label', playerText(muteText));
  desk.watch(part, ({ level, muted }) => {
    const percent = Math.round(level * 100);
    loudness.value = String(percent);
    loudness.setAttribute('aria-valuetext', playerText('percent', { percent }));
    press(mute, muted);
  });
  return labelled(playerText(name), loudness, mute);
}
