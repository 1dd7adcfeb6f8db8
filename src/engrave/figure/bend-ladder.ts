/** One hole from its lower reed up to its higher one and the overbend: a rung for each half step, with what a tuner shows. */
import { bendsOfHole } from '../../instrument/bend.ts';
import { namedOnHarp } from '../../instrument/harp.ts';
import { printedPitch } from '../../instrument/pitch.ts';
import { inWords, meansOf, notesOfHole, type Playable, tabOf } from '../../instrument/playable.ts';
import { CONCERT_A, centsOf, EQUAL, frequencyOf, type Pitching } from '../../instrument/temperament.ts';
import { escapeText } from '../markup.ts';
import type { BendLadderFigure } from './figure.ts';
import { aloud, hertz, onHarp, signed, soundHook } from './markup.ts';

/** The bend ladder as an HTML table: each note of the hole with its cents and its frequency. */
export function drawBendLadder({ harp, hole, title }: BendLadderFigure, pitching: Pitching): string {
  const { temperament = EQUAL, concertA = CONCERT_A } = pitching;
  // From the highest down, as a bend goes.
  const notes = notesOfHole(harp, hole)
    .filter(({ slide }) => !slide)
    .toSorted((a, b) => b.midi - a.midi);
  const { bends, deepest } = bendsOfHole(harp, hole);
  const frequency = (note: Playable): number => frequencyOf(harp, note.breath, note, pitching);
  const from = bends && notes.find((note) => note.breath === bends && meansOf(note) === 'reed');

  const rung = (note: Playable): string => {
    const means = meansOf(note);
    const down = from && means === 'bend' ? 1200 * Math.log2(frequency(note) / frequency(from)) : undefined;
    const cents = centsOf(harp, note.breath, note, temperament);
    return (
      `<tr class="${means}"><th scope="row"${soundHook(harp, note, pitching)}><b class="tab">${escapeText(tabOf(note))}</b> <span class="how">${inWords(note)}</span></th>` +
      `<td>${printedPitch(namedOnHarp(harp, note.midi))}</td><td>${signed(cents)}</td><td>${hertz(frequency(note))}</td>` +
      `<td>${down === undefined ? aloud('none') : signed(down)}</td></tr>`
    );
  };
  const name =
    title ??
    `Hole ${hole}, from its ${bends === 'blow' ? 'blow' : bends === 'draw' ? 'draw' : 'two'} reed${bends ? '' : 's'} down`;
  const tuned = temperament.justness === 0 ? '' : `, ${temperament.title.toLowerCase()} temperament`;
  const a = concertA === CONCERT_A ? '' : `, A at ${concertA} Hz`;
  return (
    `<table class="bend-ladder"><caption>${escapeText(name)}<span class="on">, on ${onHarp(harp)}${tuned}${a}</span></caption>` +
    '<thead><tr><th scope="col">Played</th><th scope="col">Note</th><th scope="col">Tuner, cents</th><th scope="col">Hertz</th><th scope="col">Bent by, cents</th></tr></thead>' +
    `<tbody>${notes.map(rung).join('')}</tbody></table>${deepest === 0 ? `<p class="lacks">${whyNoBend(harp.tuning.valves ?? false, bends !== undefined)}</p>` : ''}`
  );
}

const whyNoBend = (valves: boolean, differ: boolean): string =>
  valves
    ? 'Its reeds are valved, so each sounds alone: a player can shade a note down, but no second reed stops it at a half step.'
    : differ
      ? 'Its two reeds are a half step apart, so there is no note between them: it can only be shaded down a little.'
      : 'Its two reeds sound the same note, so there is nothing to bend to.';
