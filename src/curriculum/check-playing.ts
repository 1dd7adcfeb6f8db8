/** Blocks that ask too much: far harder than what leads to them, or too long on one breath. */
import { tooLong } from '../technique/breath.ts';
import { itemAt } from '../values/checked.ts';
import { placeOfEvent, type Report } from './finding.ts';
import type { NumberedPath } from './numbered.ts';
import { hardest } from './survey.ts';

/** Of ten; a lesson may be so much harder than anything before it without a remark. Ours, by trying it on courses. */
export const STRIDE = 3;

/** Checks for jumps in difficulty and for long breaths. */
export function checkPlaying(curriculum: NumberedPath, add: Report): void {
  const { lessons, surveys, way } = curriculum;
  /** The hardest level on the way to each lesson, itself included. */
  const reached: (number | undefined)[] = [];
  for (const number of way.order) {
    const before = most((way.graph.before[number] ?? []).map((other) => reached[other]));
    const own = hardest(surveys[number] ?? []);
    if (own && before !== undefined && own.level > before + STRIDE) {
      const reason = surveys[number]?.[own.block]?.difficulty.parts[0]?.words ?? '';
      const facts = { level: own.level, before, reason };
      add(itemAt(lessons, number), { block: own.block }, 'difficulty-jump', facts);
    }
    reached[number] = most([before, own?.level]);
  }
  lessons.forEach((lesson, number) => {
    surveys[number]?.forEach((block, index) => {
      const found = block && tooLong(block.difficulty.breath);
      if (!found) return;
      const { stretch, oneWay } = found;
      const { breath, litres, seconds } = stretch;
      add(lesson, placeOfEvent(lesson, index, stretch.tooLongAt), 'long-breath', { breath, litres, seconds, oneWay });
    });
  });
}

function most(levels: readonly (number | undefined)[]): number | undefined {
  const known = levels.filter((level) => level !== undefined);
  return known.length === 0 ? undefined : Math.max(...known);
}
