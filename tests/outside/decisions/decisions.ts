/** What an engraver decides by itself, in one form for two engravers: their drawings are read, not their programs asked. */
export type Side = 'above' | 'below';

/** A written note, chord or rest, in the order of the music. */
export interface DecidedNote {
  readonly rest: boolean;
  /** Of heads and rests, and of the stem’s end: half spaces down from the staff’s top line. */
  readonly places: readonly number[];
  readonly tip: number | undefined;
  /** How far along its row it is; only differences within a tile have a meaning. */
  readonly x: number;
  /** Which tile it is in. An engraver without tiles has one. */
  readonly tile: number;
  /** The side of the heads that the stem is on; undefined without a stem. */
  readonly stem: Side | undefined;
  /** Notes with the same are under one beam. */
  readonly beam: string | undefined;
  /** The side to which each tie to the next note bends, from the top down. */
  readonly ties: readonly Side[];
  /** The same of a slur that begins here. */
  readonly slur: Side | undefined;
}

/** All that was decided for a block. */
export interface Decisions {
  readonly notes: readonly DecidedNote[];
  /** The side of each tuplet’s figure, in the order of the music. */
  readonly tuplets: readonly Side[];
}

/** A curve bends to the side of its middle. */
export const bendOf = (ends: readonly [number, number], controls: readonly [number, number]): Side =>
  controls[0] + controls[1] < ends[0] + ends[1] ? 'above' : 'below';

/** Which side of its heads a stem is on that reaches from one y to another. */
export const stemSide = (stem: readonly [number, number], heads: readonly number[]): Side =>
  Math.min(...heads) - Math.min(...stem) > Math.max(...stem) - Math.max(...heads) ? 'above' : 'below';

/** The end of such a stem that is away from the heads. */
export const tipOf = (stem: readonly [number, number], side: Side): number =>
  side === 'above' ? Math.min(...stem) : Math.max(...stem);
