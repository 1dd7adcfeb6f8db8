/** Notes down, chords across, in each cell the note's role over the chord. */
import { printedChord, printedNumeral } from '../../harmony/chord.ts';
import { numeralOf } from '../../harmony/numeral.ts';
import { type Role, roleInWords } from '../../harmony/role.ts';
import { type RoleRow, roleTable } from '../../harmony/role-table.ts';
import { type Pitch, printedName } from '../../instrument/pitch.ts';
import { inWords, tabOf } from '../../instrument/playable.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { escapeText } from '../markup.ts';
import { roleShape } from '../role-shape.ts';
import { playedOn, type RoleTableFigure } from './figure.ts';
import { aloud, harpAndKey, soundHook } from './markup.ts';

/** The role table as HTML: a row for each note, a column for each chord. */
export function drawRoleTable(figure: RoleTableFigure, pitching: Pitching): string {
  const { harp, key, position, chords } = figure;
  const table = roleTable(
    figure.notes.map((note) => playedOn(harp, note)),
    chords,
    key,
  );
  const title = figure.title ?? 'What each note is over each chord';
  const heads = table.chords.map(
    (chord) =>
      `<th scope="col"><b>${escapeText(printedNumeral(numeralOf(chord, key)))}</b> <span>${escapeText(printedChord(chord))}</span></th>`,
  );
  const row = ({ note, pitch, cells }: RoleRow): string =>
    `<tr><th scope="row"${soundHook(harp, note, pitching)}><b class="tab">${escapeText(tabOf(note))}</b> <span class="name">${printedName(pitch)}</span>` +
    ` <span class="how">${inWords(note)}</span></th>${cells.map((own) => cell(own.role, own.pitch.letter === pitch.letter ? undefined : own.pitch)).join('')}</tr>`;
  return (
    `<table class="role-table"><caption>${escapeText(title)}<span class="on">, on ${harpAndKey(harp, position, key)}</span></caption>` +
    `<thead><tr><td>${aloud('Note')}</td>${heads.join('')}</tr></thead><tbody>${table.rows.map(row).join('')}</tbody></table>`
  );
}

/** CSS pixels. */
const MARK = 38;

/** Chord tones stand out from the colours between them. `pitch` is given where the chord names it otherwise than the row does. */
const cell = (role: Role, pitch: Pitch | undefined): string =>
  `<td class="${role.tone ? 'chord-tone' : 'chord-colour'}">${roleShape(role, { size: MARK, text: role.label })}<span class="words">${wordsOf(role)}${pitch ? `, as ${printedName(pitch)}` : ''}</span></td>`;

const wordsOf = (role: Role): string => roleInWords(role).replace(/^the /, '');
