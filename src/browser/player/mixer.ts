/** How loud each part is, for all blocks of the page at once. */
import { PARTS, type Part } from '../sound/studio.ts';
import type { Desk } from './desk.ts';
import { labelled, make, press, slider, toggle } from './dom.ts';
import type { Wiring } from './wiring.ts';

const LEVEL = { least: 0, most: 100, step: 1 };
const NAMES: Readonly<Record<Part, string>> = {
  tune: 'Tune',
  bass: 'Bass',
  drums: 'Drums',
  chords: 'Chords',
  click: 'Metronome',
  drone: 'Drone',
};

export function mixer({ desk }: Wiring): HTMLElement {
  const rows = PARTS.filter((part) => part !== 'click').map((part) => channel(part, desk));
  return make('fieldset', { class: 'player-mix' }, make('legend', {}, 'Band'), ...rows);
}

function channel(part: Part, desk: Desk): HTMLElement {
  const loudness = slider(LEVEL, 0, (percent) => desk.set(part, { level: percent / 100 }));
  const mute = toggle('Mute', false, (muted) => desk.set(part, { muted }));
  mute.setAttribute('aria-label', `Mute ${NAMES[part].toLowerCase()}`);
  desk.watch(part, ({ level, muted }) => {
    const percent = Math.round(level * 100);
    loudness.value = String(percent);
    loudness.setAttribute('aria-valuetext', `${percent} percent`);
    press(mute, muted);
  });
  return labelled(NAMES[part], loudness, mute);
}
