/** The words and hooks all figures share. */
import type { SongKey } from '../../harmony/key.ts';
import { type Harp, harpName } from '../../instrument/harp.ts';
import { printedName } from '../../instrument/pitch.ts';
import { type Playable, tabOf } from '../../instrument/playable.ts';
import { positionInWords } from '../../instrument/position.ts';
import { frequencyOf, type Pitching } from '../../instrument/temperament.ts';
import { unusualTuning } from '../../instrument/tuning.ts';
import { escapeText } from '../markup.ts';

/** Read aloud and not shown. */
export const aloud = (text: string): string => `<span class="aloud">${escapeText(text)}</span>`;

/** `low F`, `B♭`. */
export const printedHarp = (harp: Harp): string => harpName(harp).replace(/b$/, '♭').replace(/#$/, '♯');

/** `a` or `an`, before the name of a key or a tuning: the letters A, E and F begin with a vowel when they are said. */
export const articleOf = (name: string): string => (/^[AEFaeio]/.test(name.normalize('NFD')) ? 'an' : 'a');

/** `an A harp`, `a low F harp (natural minor)`. */
export function onHarp(harp: Harp): string {
  const name = printedHarp(harp);
  const other = unusualTuning(harp.tuning);
  const tuning = other === undefined ? '' : ` (${escapeText(other)})`;
  return `${articleOf(name)} ${name} harp${tuning}`;
}

/** `an A harp in second position, the key of E`. */
export function harpAndKey(harp: Harp, position: number, key: SongKey): string {
  const mode = key.mode === 'major' ? '' : ` ${key.mode}`;
  return `${onHarp(harp)} in ${positionInWords(position)}, the key of ${printedName(key.tonic)}${mode}`;
}

/** What a page that can sound notes finds a note by: its tab, and its frequency on this harp. */
export function soundHook(harp: Harp, note: Playable, pitching: Pitching): string {
  return ` data-tab="${escapeText(tabOf(note))}" data-frequency="${hertz(frequencyOf(harp, note.breath, note, pitching))}"`;
}

/** To a tenth of a hertz, and to a hundredth below 200 Hz, where a tenth is most of a cent. */
export const hertz = (frequency: number): string => frequency.toFixed(frequency < 200 ? 2 : 1);

/** Whole cents, as a tuner shows them: `+14`, `−14` with a true minus sign, `0`. */
export function signed(cents: number): string {
  const whole = Math.round(cents);
  return whole === 0 ? '0' : (whole < 0 ? '−' : '+') + Math.abs(whole);
}
