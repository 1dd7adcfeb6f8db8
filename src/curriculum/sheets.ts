/** A long path is drawn in sheets: the whole of it while it can be taken in, else stage by stage, and no sheet too long. */
import { type Curriculum, stepOf } from './curriculum.ts';

/** A part of the path that is drawn as one map. */
export interface Sheet {
  /** The stage it shows; undefined for a sheet of the whole path, or of lessons of no stage. */
  readonly stage?: string;
  /** Counted from 1 where a stage takes several sheets. */
  readonly part?: number;
  /** By id, in path order. */
  readonly lessons: readonly string[];
}

/** More lessons than this are not drawn on one sheet. */
export const SHEET = 40;

/** The parts of the path that are drawn as one map each: the whole path, or its stages if it is long. */
export function sheetsOf(curriculum: Pick<Curriculum, 'steps' | 'order'>): Sheet[] {
  const { order } = curriculum;
  if (order.length <= SHEET) return order.length === 0 ? [] : [{ lessons: order }];
  const stages = new Map<string | undefined, string[]>();
  for (const id of order) {
    const { stage } = stepOf(curriculum, id).lesson.frontMatter;
    const list = stages.get(stage);
    if (list) list.push(id);
    else stages.set(stage, [id]);
  }
  return [...stages].flatMap(([stage, list]) => {
    const parts = Math.ceil(list.length / SHEET);
    // Even parts: 41 lessons make 21 and 20, not 40 and one.
    const size = Math.ceil(list.length / parts);
    return Array.from(
      { length: parts },
      (_, part): Sheet => ({
        ...(stage === undefined ? {} : { stage }),
        ...(parts === 1 ? {} : { part: part + 1 }),
        lessons: list.slice(part * size, (part + 1) * size),
      }),
    );
  });
}
