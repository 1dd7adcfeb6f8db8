/** The notes of a figure on a harp of another tuning: the pitches stay where they are in the key, and other holes play them. */
import { type Harp, keyNote } from '../../instrument/harp.ts';
import { placesOfPitch } from '../../instrument/playable.ts';
import { type FigureOnHarp, playedOn, type TabNote } from './figure.ts';

/** Whether a harp has the holes that a figure is about: one of four holes has no sixth to show. */
export function hasHolesOf(figure: FigureOnHarp, { tuning }: Harp): boolean {
  if (figure.kind === 'bend-ladder') return figure.hole <= tuning.blow.length;
  return figure.kind !== 'target-notes' || figure.holes[0] <= tuning.blow.length;
}

/** The same figure with notes of the other harp; those that it has not got are left out. */
export function withNotesOf(figure: FigureOnHarp, harp: Harp): FigureOnHarp {
  switch (figure.kind) {
    case 'role-table':
      return { ...figure, notes: figure.notes.flatMap(found(figure.harp)) };
    case 'harp-map':
      return figure.lit?.by === 'notes'
        ? { ...figure, lit: { ...figure.lit, notes: figure.lit.notes.flatMap(found(figure.harp)) } }
        : figure;
    case 'form-chart':
      return {
        ...figure,
        bars: figure.bars.map(({ target, ...bar }) => {
          const [own] = target ? found(figure.harp)(target) : [];
          return own ? { ...bar, target: own } : bar;
        }),
      };
    default:
      return figure;
  }

  function found(from: Harp) {
    const shift = keyNote(harp) - keyNote(from);
    return (note: TabNote): TabNote[] =>
      placesOfPitch(harp, playedOn(from, note).midi + shift)
        .slice(0, 1)
        .map(({ breath, hole, bend, over, slide }) => ({ breath, hole, bend, over, slide }));
  }
}
