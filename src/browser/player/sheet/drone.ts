/** The choice of a chord or the key note to hold under whatever is practised. */
import { chromaOf, lowestFrom, printedName } from '../../../instrument/pitch.ts';
import { isPlayedChord, type PlayedChord } from '../../../score/playback.ts';
import { sheetText } from '../../texts/player-sheet.ts';
import type { PlayerActions } from '../actions.ts';
import { choice, labelled, make } from '../dom.ts';
import { chordInFull } from '../in-words.ts';

/** The lowest root of a drone, as a MIDI number. */
const LOWEST_DRONE_NOTE = 43;

/** A chord from its bass up, which is its root where it has no other. */
function droneOf({ root, bass, tones }: PlayedChord): readonly number[] {
  const lowest = lowestFrom(LOWEST_DRONE_NOTE, chromaOf(bass ?? root));
  const above = bass ? lowestFrom(lowest, chromaOf(root)) : lowest + 12;
  return [lowest, ...tones.filter((tone) => bass || tone > 0).map((tone) => above + tone)];
}

/** The choice of a drone. */
export function droneRow({ playback, pageMix, ofMidi, wake }: PlayerActions) {
  let held = '';
  const select = choice([], '', (value) => {
    held = value;
    wake();
    hold();
  });

  /** The key note with its fifth, or a chord of the block from its bass up, low enough to stay out of the tune's way. */
  function hold(): void {
    const found = options().find(({ value }) => value === held);
    pageMix.hold((found?.midis ?? []).map(ofMidi), taken);
  }

  function taken(): void {
    held = '';
    select.value = '';
  }

  function options(): { value: string; text: string; midis: readonly number[] }[] {
    const { key, bars } = playback();
    const tonic = lowestFrom(LOWEST_DRONE_NOTE, chromaOf(key.tonic));
    const chords = new Map<string, readonly number[]>();
    for (const chord of bars.flatMap((bar) => bar.chords.filter(isPlayedChord)))
      chords.set(chordInFull(chord), droneOf(chord));
    return [
      { value: '', text: sheetText('noDrone'), midis: [] },
      { value: 'key', text: sheetText('keyNote', { note: printedName(key.tonic) }), midis: [tonic, tonic + 12] },
      {
        value: 'fifth',
        text: sheetText('keyNoteAndFifth', { note: printedName(key.tonic) }),
        midis: [tonic, tonic + 7, tonic + 12],
      },
      ...[...chords].map(([name, midis]) => ({ value: `chord ${name}`, text: name, midis })),
    ];
  }

  function showHarp(): void {
    select.replaceChildren(...options().map(({ value, text }) => make('option', { value }, text)));
    select.value = held;
    if (held !== '') hold();
  }
  showHarp();
  return {
    element: make('fieldset', {}, make('legend', {}, sheetText('toBendAgainst')), labelled(sheetText('drone'), select)),
    showHarp,
  };
}
