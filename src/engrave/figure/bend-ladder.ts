/** One hole from its lower reed up to its higher one, and to the overbend where it is asked for: a rung for each half step. */
import { bendsOfHole } from '../../instrument/bend.ts';
import { namedOnHarp } from '../../instrument/harp.ts';
import { printedPitch } from '../../instrument/pitch.ts';
import { inWords, meansOf, notesOfHole, type Playable, tabOf } from '../../instrument/playable.ts';
import {
  CONCERT_A,
  centsOf,
  EQUAL,
  frequencyOf,
  type Pitching,
  type Temperament,
} from '../../instrument/temperament.ts';
import { escapeText } from '../markup.ts';
import type { BendLadderFigure } from './figure.ts';
import { aloud, hertz, onHarp, signed, soundHook } from './markup.ts';

/** The bend ladder as an HTML table: each note of the hole, with its cents and its frequency where they are asked for. */
export function drawBendLadder(figure: BendLadderFigure, pitching: Pitching): string {
  const { harp, hole, title } = figure;
  const { temperament = EQUAL, concertA = CONCERT_A } = pitching;
  // From the highest down, as a bend goes.
  const notes = notesOfHole(harp, hole)
    .filter(({ slide, over }) => !slide && (figure.overbends || !over))
    .toSorted((a, b) => b.midi - a.midi);
  const { bends, deepest } = bendsOfHole(harp, hole);
  const frequency = (note: Playable): number => frequencyOf(harp, note.breath, note, pitching);
  const from = bends && notes.find((note) => note.breath === bends && meansOf(note) === 'reed');

  const bentBy = (note: Playable): string =>
    from && meansOf(note) === 'bend' ? signed(1200 * Math.log2(frequency(note) / frequency(from))) : aloud('none');
  const columns: readonly Column[] = [
    { head: 'Note', cell: (note) => printedPitch(namedOnHarp(harp, note.midi)) },
    ...(figure.cents
      ? [{ head: 'Tuner, cents', cell: (note: Playable) => signed(centsOf(harp, note.breath, note, temperament)) }]
      : []),
    ...(figure.hertz ? [{ head: 'Hertz', cell: (note: Playable) => hertz(frequency(note)) }] : []),
    ...(figure.cents ? [{ head: 'Bent by, cents', cell: bentBy }] : []),
  ];
  const rung = (note: Playable): string =>
    `<tr class="${meansOf(note)}"><th scope="row"${soundHook(harp, note, pitching)}><b class="tab">${escapeText(tabOf(note))}</b> <span class="how">${inWords(note)}</span></th>` +
    `${columns.map(({ cell }) => `<td>${cell(note)}</td>`).join('')}</tr>`;
  const name =
    title ??
    `Hole ${hole}, from its ${bends === 'blow' ? 'blow' : bends === 'draw' ? 'draw' : 'two'} reed${bends ? '' : 's'} down`;
  const heads = columns.map(({ head }) => `<th scope="col">${head}</th>`);
  return (
    `<table class="bend-ladder"><caption>${escapeText(name)}<span class="on">, on ${onHarp(harp)}${figure.cents || figure.hertz ? tuningInWords(temperament, concertA) : ''}</span></caption>` +
    `<thead><tr><th scope="col">Played</th>${heads.join('')}</tr></thead>` +
    `<tbody>${notes.map(rung).join('')}</tbody></table>${deepest === 0 ? `<p class="lacks">${whyNoBend(harp.tuning.valves ?? false, bends !== undefined)}</p>` : ''}`
  );
}

interface Column {
  readonly head: string;
  readonly cell: (note: Playable) => string;
}

/** What the numbers are counted in, where it is not the usual tuning. */
function tuningInWords(temperament: Temperament, concertA: number): string {
  const tuned = temperament.justness === 0 ? '' : `, ${temperament.title.toLowerCase()} temperament`;
  return tuned + (concertA === CONCERT_A ? '' : `, A at ${concertA} Hz`);
}

const whyNoBend = (valves: boolean, differ: boolean): string =>
  valves
    ? 'Its reeds are valved, so each sounds alone: a player can shade a note down, but no second reed stops it at a half step.'
    : differ
      ? 'Its two reeds are a half step apart, so there is no note between them: it can only be shaded down a little.'
      : 'Its two reeds sound the same note, so there is nothing to bend to.';
