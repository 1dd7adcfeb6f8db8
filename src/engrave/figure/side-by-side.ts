/** One tune on two harps or in two positions: a table for each bar with a row for each note, and below them what changes. */
import { degreeIn } from '../../harmony/explain.ts';
import { spellInKey } from '../../harmony/key.ts';
import type { HeldHoles } from '../../instrument/easiest-holes.ts';
import { harpName } from '../../instrument/harp.ts';
import { printedName, printedPitch } from '../../instrument/pitch.ts';
import { inWords, tabOfNotes } from '../../instrument/playable.ts';
import { ordinal, positionInWords } from '../../instrument/position.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { escapeText } from '../markup.ts';
import { playedOn, type SideBySideFigure, type SideNote, type TuneSide } from './figure.ts';
import { aloud, onHarp, printedHarp, soundHook } from './markup.ts';

/** The two sides as HTML tables. */
export function drawSideBySide(figure: SideBySideFigure, pitching: Pitching): string {
  const { sides, bars, tune } = figure;
  const [first, second] = sides;
  const onOneHarp = harpName(first.harp) === harpName(second.harp);
  const name = ({ harp, position }: TuneSide): string => (onOneHarp ? ordinal(position) : printedHarp(harp));
  const full = ({ harp, position, key }: TuneSide): string =>
    `${printedHarp(harp)} harp, ${positionInWords(position)}, in ${printedName(key.tonic)}${key.mode === 'major' ? '' : ` ${key.mode}`}`;
  // A tune in two keys has its degrees in common, and not its notes.
  const noteName = (midi: number): string =>
    onOneHarp ? degreeIn(midi, first.key).label : printedName(spellInKey(midi, first.key));

  const cell = ({ held }: SideNote, index: number): string => {
    const found = held[index];
    const side = sides[index];
    if (!found || !side) return `<td class="none"><span aria-hidden="true">–</span>${aloud('cannot be played')}</td>`;
    const [only] = found.notes;
    const hook =
      only && found.notes.length === 1
        ? soundHook(side.harp, playedOn(side.harp, { ...only, breath: found.breath }), pitching)
        : '';
    return `<td class="${found.breath}"${hook}><b class="tab" aria-hidden="true">${escapeText(tabOfNotes(found.notes, found.breath))}</b>${aloud(holesInWords(found))}</td>`;
  };
  const row = (note: SideNote): string =>
    `<tr><th scope="row">${escapeText(note.midis.map(noteName).join(' '))}</th>${sides.map((_, index) => cell(note, index)).join('')}</tr>`;
  const heads = sides.map((side) => `<th scope="col">${escapeText(name(side))}</th>`).join('');
  const tables = bars
    .filter(({ notes }) => notes.length > 0)
    .map(
      ({ number, notes }) =>
        `<table><caption>${number === 0 ? 'Pickup' : `Bar ${number}`}</caption><thead><tr><th scope="col">${onOneHarp ? 'Degree' : 'Note'}</th>${heads}</tr></thead><tbody>${notes.map(row).join('')}</tbody></table>`,
    );
  const facts = factsOf(figure).map(
    ([fact, values]) =>
      `<tr><th scope="row">${fact}</th>${values.map((value) => `<td>${escapeText(value)}</td>`).join('')}</tr>`,
  );
  const where = onOneHarp
    ? `${onHarp(first.harp)}, in ${positionInWords(first.position)} and in ${positionInWords(second.position)}`
    : `${onHarp(first.harp)} and on ${onHarp(second.harp)}`;
  return (
    `<figcaption>${escapeText(figure.title ?? tune)}<span class="on">, on ${where}</span></figcaption>` +
    `<div class="side-by-side">${tables.join('')}</div>` +
    `<table class="side-facts"><caption>What changes</caption><thead><tr><td></td>${sides.map((side) => `<th scope="col">${escapeText(full(side))}</th>`).join('')}</tr></thead><tbody>${facts.join('')}</tbody></table>`
  );
}

const holesInWords = ({ breath, notes }: HeldHoles): string =>
  notes.map((note) => inWords({ ...note, breath })).join(' and ');

/** Its name, and its value on each side. */
type Fact = readonly [string, readonly string[]];

/** What differs between the sides, a row for each fact. */
function factsOf({ sides, bars }: SideBySideFigure): Fact[] {
  const each = (value: (side: TuneSide) => string | number): string[] => sides.map((side) => `${value(side)}`);
  const missing = sides.map(({ key, shift }, index) => {
    const [first] = sides;
    const names = bars
      .flatMap(({ notes }) => notes)
      .filter(({ held }) => !held[index])
      .flatMap(({ midis }) => midis.map((midi) => printedPitch(spellInKey(midi + shift - first.shift, key))));
    return names.length === 0 ? 'none' : [...new Set(names)].join(', ');
  });
  const sounds: Fact[] = sides.some(({ shift }) => shift !== 0)
    ? [['Sounds', each(({ shift }) => shiftInWords(shift))]]
    : [];
  const overbent: Fact[] = sides.some((side) => side.overbent > 0)
    ? [['Overbent notes', each((side) => side.overbent)]]
    : [];
  return [
    ...sounds,
    ['Bent notes', each(({ bent }) => bent)],
    ...overbent,
    ['Turns of the breath', each(({ turns }) => turns)],
    ['Difficulty, of 10', each(({ level }) => level)],
    ['Cannot be played', missing],
  ];
}

function shiftInWords(shift: number): string {
  if (shift === 0) return 'as written';
  const size = Math.abs(shift);
  const way = shift > 0 ? 'higher' : 'lower';
  if (size % 12 === 0) return size === 12 ? `an octave ${way}` : `${size / 12} octaves ${way}`;
  return `${size === 1 ? 'a half step' : `${size} half steps`} ${way}`;
}
