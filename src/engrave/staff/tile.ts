/** The staff of one tile before it is drawn: its notes at their places, their beams and tuplets. */
import { itemAt } from '../../values/checked.ts';
import { beamBoxes, type LaidBeam, layBeam } from './beam.ts';
import { glyphBox, type InkBox, moved, type PlacedGlyph } from './box.ts';
import { endSignsAt } from './end-signs.ts';
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
  /** Signs at the ends of notes, by the number of the note. */
  readonly endSigns: ReadonlyMap<number, readonly PlacedGlyph[]>;
  /** What each note covers in the tile. */
  readonly ink: readonly (readonly InkBox[])[];
  /** What beams, tuplets and end signs cover. */
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
  const endSigns = new Map(
    notes.flatMap(({ content }, index) =>
      content.endSigns.length > 0
        ? [[index, endSignsAt(content.endSigns, { index, xs, ink, joinInk, width })] as const]
        : [],
    ),
  );
  return {
    width,
    notes,
    xs,
    stems,
    beams: laid,
    tuplets: figures,
    endSigns,
    ink,
    joinInk: [...joinInk, ...[...endSigns.values()].flat().map((mark) => glyphBox(mark))],
  };
}
