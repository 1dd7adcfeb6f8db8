/** The tones of each chord on the harp as tables, with the notes from which a line comes into each of them. */
import { type Chord, printedChord, printedNumeral } from '../../harmony/chord.ts';
import { numeralOf } from '../../harmony/numeral.ts';
import { roleInWords } from '../../harmony/role.ts';
import { type Approach, type ApproachKind, type TargetNote, targetNotes } from '../../harmony/target-notes.ts';
import { printedName } from '../../instrument/pitch.ts';
import { inWords, tabOf } from '../../instrument/playable.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { itemAt } from '../../values/checked.ts';
import { escapeText } from '../markup.ts';
import { roleShape } from '../role-shape.ts';
import type { TargetNotesFigure } from './figure.ts';
import { aloud, harpAndKey, soundHook } from './markup.ts';

/** CSS pixels. */
const MARK = 30;

const WORDS: Readonly<Record<ApproachKind, string>> = {
  release: 'let the bend go',
  bend: 'bend down',
  above: 'from above',
  breath: 'same breath',
};

/** The target notes as HTML: a table for each chord, a row for each tone. */
export function drawTargetNotes(figure: TargetNotesFigure, pitching: Pitching): string {
  const { harp, key, position, chords, holes } = figure;
  const before = ({ from }: Approach): string =>
    `<span class="way"${soundHook(harp, from, pitching)}><b class="tab" aria-hidden="true">${escapeText(tabOf(from))}</b>${aloud(inWords(from))}</span>`;
  const way = (ways: readonly Approach[]): string =>
    `<li>${ways.map(before).join(`${aloud(', ')} `)}${aloud(':')} <span class="how">${WORDS[itemAt(ways, 0).kind]}</span></li>`;
  const row = ({ note, role, pitch, approaches }: TargetNote): string =>
    `<tr><th scope="row"${soundHook(harp, note, pitching)}>${roleShape(role, { size: MARK, text: role.label })}` +
    `<b class="tab" aria-hidden="true">${escapeText(tabOf(note))}</b>${aloud(`${inWords(note)},`)} <span class="name">${printedName(pitch)}</span>${aloud(`, ${roleInWords(role)}`)}</th>` +
    `<td>${approaches.length > 0 ? `<ul class="ways">${runsOfKind(approaches).map(way).join('')}</ul>` : aloud('none')}</td></tr>`;
  const table = (chord: Chord): string => {
    const tones = targetNotes(harp, chord, key, figure);
    const name = `<b>${escapeText(printedNumeral(numeralOf(chord, key)))}</b> <span>${escapeText(printedChord(chord))}</span>`;
    const body =
      tones.length > 0 ? tones.map(row).join('') : '<tr><td colspan="2">None of its tones is in this range.</td></tr>';
    return `<table><caption>${name}</caption><thead><tr><th scope="col">Land on</th><th scope="col">Come from</th></tr></thead><tbody>${body}</tbody></table>`;
  };
  const [first, last] = holes;
  const range = first === last ? `hole ${first}` : `holes ${first} to ${last}`;
  const title = figure.title ?? `Target notes, ${range}`;
  return (
    `<figcaption>${escapeText(title)}<span class="on">, on ${harpAndKey(harp, position, key)}</span></figcaption>` +
    `<div class="target-notes">${chords.map(table).join('')}</div>`
  );
}

/** Ways of one kind that follow each other in the order of their effort. */
function runsOfKind(approaches: readonly Approach[]): Approach[][] {
  const runs: Approach[][] = [];
  for (const approach of approaches) {
    const last = runs.at(-1);
    if (last?.[0]?.kind === approach.kind) last.push(approach);
    else runs.push([approach]);
  }
  return runs;
}
