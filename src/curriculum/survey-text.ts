/** A survey as text, to be kept. */
import type { FoundTechnique, Match } from '../technique/detect.ts';
import type { Difficulty } from '../technique/difficulty.ts';
import type { Repertoire } from '../technique/repertoire.ts';
import { itemAt } from '../values/checked.ts';
import type { BlockSurvey, LessonSurvey } from './survey.ts';

interface BlockText {
  /** Each match once: what it points at, or null, and its events. Many techniques share them. */
  readonly matches: readonly (readonly [at: number | null, events: readonly number[]])[];
  /** By the technique's id, the numbers of its matches. */
  readonly found: readonly (readonly [technique: string, matches: readonly number[]])[];
  readonly difficulty: Difficulty;
}

/** A survey as text for the cache. */
export const writeSurvey = (survey: LessonSurvey): string =>
  JSON.stringify(survey.map((block) => (block ? blockText(block) : null)));

function blockText({ found, difficulty }: BlockSurvey): BlockText {
  const numbers = new Map<Match, number>();
  const numberOf = (match: Match): number => {
    const number = numbers.get(match) ?? numbers.size;
    numbers.set(match, number);
    return number;
  };
  const byTechnique = found.map(({ technique, matches }) => [technique.id, matches.map(numberOf)] as const);
  return {
    matches: [...numbers.keys()].map(({ at, events }) => [at ?? null, events] as const),
    found: byTechnique,
    difficulty,
  };
}

/** Of a text that `writeSurvey` made for the same repertoire. */
export const readSurvey = (text: string, { byId }: Repertoire): LessonSurvey =>
  (JSON.parse(text) as readonly (BlockText | null)[]).map((block) => {
    if (!block) return undefined;
    const matches = block.matches.map(([at, events]): Match => (at === null ? { events } : { events, at }));
    const found = block.found.flatMap(([id, numbers]): FoundTechnique[] => {
      const technique = byId.get(id);
      return technique ? [{ technique, matches: numbers.map((number) => itemAt(matches, number)) }] : [];
    });
    return { found, difficulty: block.difficulty };
  });
