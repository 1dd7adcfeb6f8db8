/** The staff of one tile before it is drawn: its notes at their places, their beams and tuplets. */
import { itemAt } from '../../values/checked.ts';
import { beamBoxes, type LaidBeam, layBeam } from './beam.ts';
import { glyphBox, type InkBox, moved, type PlacedGlyph } from './box.ts';
import { breathMarkAt } from './breath-mark.ts';
import { inkOf, type NoteShape, type Stem } from './note.ts';
import { type LaidTuplet, layTuplet, type TupletContent } from './tuplet.ts';

/** What a tile has on its staff, before any of it has a place. */
export interface StaffContent {
  readonly notes: readonly NoteShape[];
  /** Positions of the notes under each beam. */
  readonly beams: readonly (readonly number[])[];
  readonly tuplets: readonly TupletContent[];
}

/** All that a tile’s staff shows but its ties and slurs. */
export interface StaffTile {
  readonly width: number;
  readonly notes: readonly NoteShape[];
  /** The middle of each note’s head. */
  readonly xs: readonly number[];
  /** The stem of each note, as its beam wants it. */
  readonly stems: readonly (Stem | undefined)[];
  readonly beams: readonly LaidBeam[];
  readonly tuplets: readonly LaidTuplet[];
  /** Breath marks, by the number of the note they are after. */
  readonly breathMarks: ReadonlyMap<number, PlacedGlyph>;
  /** What each note covers in the tile. */
  readonly ink: readonly (readonly InkBox[])[];
  /** What beams, tuplets and breath marks cover. */
  readonly joinInk: readonly InkBox[];
}

/** Puts notes at their places in a tile. */
export function layTile({ notes, beams, tuplets }: StaffContent, xs: readonly number[], width: number): StaffTile {
  const laid = beams.map((members) => layBeam(members, notes, xs));
  const stems = notes.map(({ stem }) => stem);
  for (const beam of laid) for (const [index, at] of beam.members.entries()) stems[at] = beam.stems[index];
  const ink = notes.map((note, index) => inkOf(note, stems[index]).map((box) => moved(box, itemAt(xs, index))));
  const beamInk = laid.flatMap(beamBoxes);
  const figures = tuplets.map((tuplet) => {
    const { first, last } = tuplet;
    const inside = notes.slice(first, last + 1).filter(({ stem }) => stem);
    const up = 2 * inside.filter((note) => note.up).length >= inside.length;
    const span = {
      from: itemAt(xs, first) + (itemAt(notes, first).stem?.x ?? 0),
      to: itemAt(xs, last) + (itemAt(notes, last).stem?.x ?? 0),
    };
    return layTuplet(tuplet, up, span, xs, [...ink.slice(first, last + 1).flat(), ...beamInk]);
  });
  const joinInk = [...beamInk, ...figures.flatMap(({ boxes }) => boxes)];
  const breathMarks = new Map(
    notes.flatMap(({ content }, index) =>
      content.breathAfter ? [[index, breathMarkAt({ index, xs, ink, joinInk, width })] as const] : [],
    ),
  );
  return {
    width,
    notes,
    xs,
    stems,
    beams: laid,
    tuplets: figures,
    breathMarks,
    ink,
    joinInk: [...joinInk, ...[...breathMarks.values()].map((mark) => glyphBox(mark))],
  };
}
