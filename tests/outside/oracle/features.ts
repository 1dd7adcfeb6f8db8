// What a random block has, for the statistics.

import type { ChordSymbol } from './chords.ts';
import { isSilence } from './chords.ts';
import type { Key } from './pitch.ts';
import type { Settings } from './settings.ts';

/** Adds what the settings and chords of a block have. */
export function note(features: Set<string>, s: Settings, symbols: ChordSymbol[], inMusic: boolean, key: Key): void {
  if (inMusic) features.add('chord-symbol');
  if (symbols.some(isSilence)) features.add('no-chord');
  for (const symbol of symbols.filter((s) => !isSilence(s))) {
    features.add(symbol.name === undefined ? 'numeral' : 'chord-name').add(`quality:${symbol.quality.id}`);
    if (symbol.numeral !== undefined && symbol.numeral.sign !== 0) features.add('numeral-accidental');
    if (symbol.bass !== undefined) features.add('slash-bass');
    if (symbol.of !== undefined) features.add('numeral-of-numeral');
    const ending =
      symbol.name === undefined
        ? symbol.text.replace(/^[b#]?[IViv]+/, '').replace(/\/[b#]?[IViv]+$/, '')
        : symbol.text.slice(symbol.name.length).replace(/\/[A-G][b#]?$/, '');
    features.add(`${symbol.name === undefined ? 'numeral-ending' : 'name-ending'}:${ending}`);
  }
  features.add(`tuning:${s.tuning}`).add(`position:${s.position}`).add(`meter:${s.meter}`).add(`slot:${s.slot}`);
  features.add(`harp:${s.harp}`).add(`mode:${key.mode}`).add(`key:${key.name}`);
  if (s.register !== '') features.add(`register:${s.register}`);
  if (s.feel !== 'straight')
    features.add(s.swing === undefined ? 'feel-in-compound' : s.feel === 'shuffle' ? 'shuffle' : 'feel-ratio');
}
