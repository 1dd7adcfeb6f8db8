/** A block that its author changes while its player is open. */
import { type PlaySettings, writtenSettings } from '../../schedule/settings.ts';
import type { Playback } from '../../score/playback.ts';

/** Dispatched on the element of an open player; `detail` is the new playback as JSON. What sounds goes on to the end of its bar. */
export const MUSIC_EVENT = 'reedway:music';

/**
 * The settings stay, but for what the block has no longer: a tempo and a feel that were as written follow what is written now, a loop
 * ends with the last bar, and a loop of bars that are all gone becomes one of the whole block. A phrase is found by its name.
 */
export function settingsAfterEdit(settings: PlaySettings, before: Playback, now: Playback): PlaySettings {
  const [was, is] = [writtenSettings(before), writtenSettings(now)];
  const { range, layer } = settings;
  const last = now.bars.length - 1;
  const phrase = layer && now.phrases?.findIndex(({ name }) => name === before.phrases?.[layer.phrase]?.name);
  return {
    ...settings,
    tempo: settings.tempo === was.tempo ? is.tempo : settings.tempo,
    swing: settings.swing === was.swing ? is.swing : settings.swing,
    range: range && range.first <= last ? { first: range.first, last: Math.min(range.last, last) } : undefined,
    layer: layer && phrase !== undefined && phrase >= 0 ? { ...layer, phrase } : undefined,
  };
}
