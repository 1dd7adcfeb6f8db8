/** A form as the lines of four bars that it is, each with its chords and, where the author names one, its target note. */
import { type Chord, type NoChord, printedChord, printedNumeral } from '../../harmony/chord.ts';
import { numeralOf } from '../../harmony/numeral.ts';
import { roleInWords, roleOf, spell } from '../../harmony/role.ts';
import { printedName } from '../../instrument/pitch.ts';
import { inWords, tabOf } from '../../instrument/playable.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { escapeText } from '../markup.ts';
import { roleShape } from '../role-shape.ts';
import { type FormChartFigure, playedOn, type TabNote } from './figure.ts';
import { aloud, harpAndKey, soundHook } from './markup.ts';

/** CSS pixels. */
const MARK = 30;

/** The form chart as HTML: the bars of the form with their chords and target notes. */
export function drawFormChart(figure: FormChartFigure, pitching: Pitching): string {
  const { harp, key, position, bars } = figure;
  const numeral = (chord: Chord | NoChord): string => (chord === 'none' ? '' : printedNumeral(numeralOf(chord, key)));
  const chordName = (chord: Chord | NoChord): string => {
    const name = escapeText(printedChord(chord));
    if (chord === 'none') return `<span class="chord"><b>${name}</b></span>`;
    return `<span class="chord"><b>${escapeText(numeral(chord))}</b> <span>${name}</span></span>`;
  };

  /** What the target is to the bar's first chord, under which it is meant to land. */
  const target = (note: TabNote, first: Chord | NoChord | undefined): string => {
    const chord = first === 'none' ? undefined : first;
    const played = playedOn(harp, note);
    const role = chord && roleOf(played.midi, chord, key);
    return (
      `<span class="target"${soundHook(harp, played, pitching)}>${role ? roleShape(role, { size: MARK, text: role.label }) : ''}<b class="tab" aria-hidden="true">${escapeText(tabOf(played))}</b>` +
      `${aloud(`target ${inWords(played)},`)} <span class="name">${printedName(spell(played.midi, chord, key))}</span>` +
      `${role ? aloud(`, ${roleInWords(role)}`) : ''}</span>`
    );
  };

  let last: string | undefined;
  const items = bars.map((bar, index) => {
    const names = bar.chords.map((chord) => numeral(chord) + printedChord(chord)).join();
    // A bar that stays on its chord is drawn lighter, so that the changes stand out.
    const stays = names === last ? ' class="stays"' : '';
    last = names;
    return (
      `<li${stays}><span class="bar-number" aria-hidden="true">${index + 1}</span>${aloud(`Bar ${index + 1}: `)}` +
      `<span class="chords">${bar.chords.map(chordName).join(' ')}</span> ${bar.target ? target(bar.target, bar.chords[0]) : ''}</li>`
    );
  });
  const title = figure.title ?? figure.form;
  return (
    `<figcaption>${escapeText(title)}<span class="on">, on ${harpAndKey(harp, position, key)}</span></figcaption>` +
    `<ol class="form-chart">${items.join('')}</ol>`
  );
}
