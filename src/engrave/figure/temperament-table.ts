/** How the reeds are tuned against each other: each note's ratio to the chord of its breath, and what a tuner shows for it. */
import { type Breath, type Harp, keyNote, namedOnHarp, reed } from '../../instrument/harp.ts';
import { mod, printedName } from '../../instrument/pitch.ts';
import type { Pitching } from '../../instrument/temperament.ts';
import { centsOff, ratioToChord, TEMPERAMENTS } from '../../instrument/temperament.ts';
import type { TemperamentTableFigure } from './figure.ts';
import { onHarp, signed } from './markup.ts';

/** Reeds of one breath that sound one note in several octaves, which are tuned alike. */
interface Alike {
  readonly breath: Breath;
  readonly semitones: number;
  readonly holes: readonly number[];
  readonly name: string;
}

/** The cents of every reed in each temperament, as an HTML table. */
export function drawTemperamentTable({ harp }: TemperamentTableFigure, { temperament }: Pitching): string {
  const rows = [...alike(harp, 'blow'), ...alike(harp, 'draw')].map(({ breath, semitones, holes, name }) => {
    const [n, d] = ratioToChord(harp.tuning, breath, semitones);
    const cells = TEMPERAMENTS.map(
      (one) =>
        `<td${one.id === temperament?.id ? ' class="chosen"' : ''}>${signed(centsOff(harp.tuning, breath, semitones, one))}</td>`,
    );
    return `<tr><th scope="row"><b>${name}</b> <span class="how">${breath} ${holes.join(' ')}</span></th><td>${n}/${d}</td>${cells.join('')}</tr>`;
  });
  const heads = TEMPERAMENTS.map(({ title }) => `<th scope="col">${title}</th>`);
  return (
    `<table class="temperament-table"><caption>Cents from equal temperament<span class="on">, on ${onHarp(harp)}</span></caption>` +
    `<thead><tr><th scope="col">Reeds</th><th scope="col">To its chord</th>${heads.join('')}</tr></thead><tbody>${rows.join('')}</tbody></table>`
  );
}

function alike(harp: Harp, breath: Breath): Alike[] {
  const rows = new Map<number, { holes: number[]; name: string }>();
  harp.tuning[breath].forEach((_, index) => {
    const midi = reed(harp, index + 1, breath);
    const semitones = mod(midi - keyNote(harp), 12);
    const row = rows.get(semitones) ?? { holes: [], name: printedName(namedOnHarp(harp, midi)) };
    row.holes.push(index + 1);
    rows.set(semitones, row);
  });
  return [...rows].map(([semitones, { holes, name }]) => ({ breath, semitones, holes, name }));
}
