/**
 * A harp as its holes: what is blown is above the comb, what is drawn hangs below it, and each row away from the
 * comb is a deeper bend, the overbend outermost, as in the breath lanes under a staff.
 */

import { DEGREES, printedChord } from '../../harmony/chord.ts';
import { degreeIn } from '../../harmony/explain.ts';
import type { SongKey } from '../../harmony/key.ts';
import { type Role, roleInWords, roleOf, spell } from '../../harmony/role.ts';
import { type Breath, type Harp, holeCount } from '../../instrument/harp.ts';
import { chromaOf, mod, printedName, printedPitch } from '../../instrument/pitch.ts';
import { bendInWords, meansOf, notesOf, type Playable, quarterStepsOf, tabOf } from '../../instrument/playable.ts';
import { endsInQuarter, QUARTER } from '../../instrument/quarter-step.ts';
import {
  CHROMATIC_STEPS,
  type LaidNote,
  layOut,
  missingOf,
  type Step,
  scaleNoteNames,
  scaleOf,
  stepsOf,
} from '../../instrument/scale.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { capitalised } from '../../texts/capital.ts';
import { itemAt, present, valueAt } from '../../values/checked.ts';
import { escapeText } from '../markup.ts';
import { roleShape } from '../role-shape.ts';
import { type HarpMapFigure, playedOn } from './figure.ts';
import { aloud, harpAndKey, soundHook } from './markup.ts';

/** A row of the map: one way to sound a hole. */
interface Row {
  readonly breath: Breath;
  readonly bend: number;
  readonly over: boolean;
  readonly slide: boolean;
}

/** What is added to the whole steps of a bend, by the half steps left over. */
const BEND_SIGNS: ReadonlyMap<number, string> = new Map([
  [0, ''],
  [0.5, '¼'],
  [1, '½'],
  [1.5, '¾'],
]);

/** What is written beside a row, and what is read aloud there. */
function rowNames({ breath, bend, over, slide }: Row): { readonly short: string; readonly words: string } {
  const pressed = slide ? ', slide pressed' : '';
  if (over)
    return {
      short: breath === 'blow' ? 'overblow' : 'overdraw',
      words: `${breath === 'blow' ? 'overblow' : 'overdraw'}${pressed}`,
    };
  if (bend === 0) return { short: slide ? `${breath}*` : breath, words: breath + pressed };
  const sign = `${Math.floor(bend / 2) || ''}${valueAt(BEND_SIGNS, bend % 2)}`;
  return { short: `bend ${sign}`, words: `${breath}, ${bendInWords(bend)}${pressed}` };
}

/** How far a row lies from the comb. */
const distance = (row: Row): number => (row.over ? 100 : row.bend * 2) + (row.slide ? 1 : 0);
const sameRow = (row: Row, note: Playable): boolean =>
  row.breath === note.breath && row.bend === note.bend && row.over === note.over && row.slide === note.slide;

/** The harp map as an HTML table, hole by hole. */
export function drawHarpMap(figure: HarpMapFigure, pitching: Pitching): string {
  const { harp, key, position } = figure;
  const notes = [...notesOf(harp), ...litQuarterSteps(figure)].filter(
    (note) =>
      (figure.bends || note.bend === 0) &&
      (figure.overbends || !note.over) &&
      !(note.slide && (note.over || note.bend > 0)),
  );
  const light = lightOf(figure);
  const rows: Row[] = [];
  for (const note of notes) if (!rows.some((row) => sameRow(row, note))) rows.push(note);
  const above = rows.filter(({ breath }) => breath === 'blow').sort((a, b) => distance(b) - distance(a));
  const below = rows.filter(({ breath }) => breath === 'draw').sort((a, b) => distance(a) - distance(b));
  const holes = Array.from({ length: holeCount(harp) }, (_, index) => index + 1);

  const cell = (row: Row, hole: number): string => {
    const note = notes.find((each) => each.hole === hole && sameRow(row, each));
    if (!note) return '<td></td>';
    const lit = light(note);
    const hook = soundHook(harp, note, pitching);
    if (!lit) return `<td${hook}>${escapeText(plainText(figure, note))}</td>`;
    // A mark is a picture: what is in it is read aloud beside it.
    return `<td class="lit"${hook}>${roleShape(lit.role, { size: MARK, text: lit.text })}${aloud(`${lit.text}, ${lit.words}`)}</td>`;
  };
  const line = (row: Row): string => {
    const { short, words } = rowNames(row);
    const kind = row.over ? 'over' : row.bend > 0 ? 'bend' : 'reed';
    return (
      `<tr class="${kind}"><th scope="row"><span aria-hidden="true">${short}</span>${aloud(words)}</th>` +
      `${holes.map((hole) => cell(row, hole)).join('')}</tr>`
    );
  };
  const middle = `<tr class="holes"><th scope="row">${aloud('hole')}</th>${holes.map((hole) => `<th scope="col">${hole}</th>`).join('')}</tr>`;
  return (
    `<table class="harp-map of-${holes.length}"><caption>${escapeText(figure.title ?? titleOf(figure))}<span class="on">, on ${harpAndKey(harp, position, key)}</span></caption>` +
    `<tbody>${above.map(line).join('')}${middle}${below.map(line).join('')}</tbody></table>${underMap(figure)}`
  );
}

/** Quarter steps are there only where the author asks for them by their tab. */
function litQuarterSteps({ harp, lit }: HarpMapFigure): readonly Playable[] {
  if (lit?.by !== 'notes') return [];
  const tabs = new Set(lit.notes.map((note) => tabOf(playedOn(harp, note))));
  return quarterStepsOf(harp).filter((note) => tabs.has(tabOf(note)));
}

/** CSS pixels at the most; a narrow column makes it smaller. */
const MARK = 34;

interface Light {
  readonly role: Role;
  readonly text: string;
  readonly words: string;
}

function lightOf(figure: HarpMapFigure): (note: Playable) => Light | undefined {
  const { lit, key } = figure;
  switch (lit?.by) {
    case undefined:
      return () => undefined;
    case 'scale': {
      const steps = stepsOf(present(scaleOf(lit.scale), lit.scale));
      const names = scaleNoteNames(key.tonic, steps);
      return (note) => {
        const index = steps.findIndex(({ semitones }) => mod(note.midi - chromaOf(key.tonic) - semitones, 12) === 0);
        const step = steps[index];
        if (!step) return undefined;
        const name = printedName(itemAt(names, index));
        return {
          role: asRole(step),
          text: figure.show === 'notes' ? name : step.label,
          words: `in the scale, ${figure.show === 'notes' ? step.label : name}`,
        };
      };
    }
    case 'chord':
      return (note) => {
        const role = roleOf(note.midi, lit.chord, key);
        return role.tone ? roleLight(figure, note, role) : undefined;
      };
    case 'notes': {
      const tabs = new Set(lit.notes.map((note) => tabOf(playedOn(figure.harp, note))));
      return (note) => {
        if (!tabs.has(tabOf(note))) return undefined;
        if (figure.chord) return roleLight(figure, note, roleOf(note.midi, figure.chord, key));
        const step = degreeIn(note.midi, key);
        return { role: asRole(step), text: plainText(figure, note), words: 'lit' };
      };
    }
  }
}

/** A degree of the key, marked as the role it has over the home chord. */
const asRole = ({ degree, semitones, label }: Step): Role => ({
  degree: itemAt(DEGREES, degree - 1),
  semitones,
  alter: endsInQuarter(semitones) ? -QUARTER : label.startsWith('♭') ? -1 : label.startsWith('♯') ? 1 : 0,
  label,
  tone: true,
});

const roleLight = (figure: HarpMapFigure, note: Playable, role: Role): Light => ({
  role,
  text: figure.show === 'roles' ? role.label : plainText(figure, note),
  words: roleInWords(role),
});

function plainText({ show, key, lit, chord }: HarpMapFigure, note: Playable): string {
  if (show === 'degrees') return degreeIn(note.midi, key).label;
  const over = lit?.by === 'chord' ? lit.chord : chord;
  if (show === 'roles' && over) return roleOf(note.midi, over, key).label;
  return printedName(spell(note.midi, over, key));
}

function titleOf({ lit, show, chord }: HarpMapFigure): string {
  const what = { notes: 'Notes', degrees: 'Degrees of the key', roles: 'Roles' }[show];
  switch (lit?.by) {
    case 'scale':
      return `${scaleOf(lit.scale)?.title ?? lit.scale} scale`;
    case 'chord':
      return `The tones of ${printedChord(lit.chord)}`;
    case 'notes':
      return chord ? `${capitalised(lit.what)}, over ${printedChord(chord)}` : capitalised(lit.what);
    case undefined:
      return show === 'roles' && chord ? `Roles over ${printedChord(chord)}` : what;
  }
}

/** A lit scale as it is played, from its lowest tonic up, and what of it the harp has not got; on a map without bends, by its reeds alone. */
function underMap({ lit, harp, key, show, bends }: HarpMapFigure): string {
  if (!lit && show === 'notes') return bends ? chromaticLacks(harp, key) : '';
  if (lit?.by !== 'scale') return '';
  const laid = layOut(harp, key.tonic, stepsOf(present(scaleOf(lit.scale), lit.scale)));
  const isShown = ({ means }: LaidNote): boolean =>
    means !== undefined && means !== 'overbend' && (bends || means !== 'bend');
  const run = laid.filter(isShown).map(({ places }) => `<li>${escapeText(tabOf(itemAt(places, 0)))}</li>`);
  const missing = bends
    ? missingOf(laid).map(lackInWords)
    : laid.filter((note) => !isShown(note)).map(({ pitch }) => printedPitch(pitch));
  const [who, where] = bends ? ['The harp has', 'on this harp without overbends'] : ['The reeds have', 'on the reeds'];
  const sentence = missing.length === 0 ? `${who} every note of it.` : `Not ${where}: ${missing.join(', ')}.`;
  return `<p class="run-label">From the lowest note up:</p><ol class="run">${run.join('')}</ol><p class="lacks">${escapeText(sentence)}</p>`;
}

function chromaticLacks(harp: Harp, key: SongKey): string {
  const laid = layOut(harp, key.tonic, CHROMATIC_STEPS);
  const [first, last] = [laid[0], laid.at(-1)];
  if (!first || !last) return '';
  const lacks = missingOf(laid).map(lackInWords);
  const range = `From ${printedPitch(first.pitch)} to ${printedPitch(last.pitch)} it has every note`;
  const sentence = lacks.length === 0 ? `${range}.` : `${range} but these, without overbends: ${lacks.join(', ')}.`;
  return `<p class="lacks">${escapeText(sentence)}</p>`;
}

function lackInWords({ pitch, places }: LaidNote): string {
  const over = places.find((place) => meansOf(place) === 'overbend');
  const name = printedPitch(pitch);
  return over ? `${name} (${over.breath === 'blow' ? 'overblow' : 'overdraw'} ${over.hole})` : `${name} (nowhere)`;
}
