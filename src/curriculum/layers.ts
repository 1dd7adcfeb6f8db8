/** In which row of the map each lesson is: below all it builds on, few enough to a row, stage after stage. */
import { itemAt } from '../values/checked.ts';
import { type Curriculum, stepOf } from './curriculum.ts';

/** A run of rows that belongs to one stage. */
export interface Band {
  /** Undefined for lessons of no stage. */
  readonly stage?: string;
  /** Whether the stage has a band further up already: its lessons need some of another stage in between. */
  readonly continued: boolean;
  readonly firstLayer: number;
  readonly lastLayer: number;
}

/** The rows of a map: every lesson is below all it builds on. */
export interface Layers {
  /** Row of each lesson, by its place among the given ones. */
  readonly layer: readonly number[];
  readonly bands: readonly Band[];
}

/**
 * Rows for some lessons, given by id in path order, at most `bound` to a row. Each takes the first row with room
 * below what it builds on, within the band of its stage.
 */
export function layersOf(curriculum: Pick<Curriculum, 'steps'>, lessons: readonly string[], bound: number): Layers {
  const placeOf = new Map(lessons.map((id, place) => [id, place]));
  const layer: number[] = [];
  const room: number[] = [];
  const bands: Band[] = [];
  const seen = new Set<string | undefined>();
  let open: { stage: string | undefined; firstLayer: number } | undefined;
  const close = () => {
    if (!open) return;
    const { stage, firstLayer } = open;
    bands.push({
      ...(stage === undefined ? {} : { stage }),
      continued: seen.has(stage),
      firstLayer,
      lastLayer: room.length - 1,
    });
    seen.add(stage);
  };
  for (const id of lessons) {
    const { lesson, needs } = stepOf(curriculum, id);
    const { stage } = lesson.frontMatter;
    if (!open || open.stage !== stage) {
      close();
      open = { stage, firstLayer: room.length };
    }
    let row = open.firstLayer;
    for (const needed of needs) {
      const before = placeOf.get(needed);
      if (before !== undefined) row = Math.max(row, itemAt(layer, before) + 1);
    }
    while ((room[row] ?? bound) <= 0) row++;
    while (room.length <= row) room.push(bound);
    room[row] = itemAt(room, row) - 1;
    layer.push(row);
  }
  close();
  return { layer, bands };
}
