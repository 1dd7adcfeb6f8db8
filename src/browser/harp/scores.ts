/** The scores of a lesson, fetched when a student needs them: to draw a block for another harp, or to save it as a file. */
import type { Credits } from '../../interchange/credits.ts';
import type { Score } from '../../score/score.ts';

/** A block's score, the name the engraver gives its parts, and what a file of it says of where it comes from. */
export interface SiteScore {
  readonly id: string;
  readonly score: Score;
  readonly credits: Credits;
}

/** A lesson's scores by the ids of their blocks. */
export type Scores = Readonly<Record<string, SiteScore>>;

const fetched = new Map<string, Promise<Scores>>();

/** A failed fetch is not remembered: the next one tries again. */
export function scoresAt(address: string): Promise<Scores> {
  const scores = fetched.get(address) ?? fetchScores(address);
  fetched.set(address, scores);
  scores.catch(() => fetched.delete(address));
  return scores;
}

async function fetchScores(address: string): Promise<Scores> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return response.json() as Promise<Scores>;
}

/** The whole address of a lesson's scores, on the site of this page. */
export function scoresAddress(lesson: string): string {
  const base = document.documentElement.dataset['base'] ?? '/';
  const path = lesson.split('/').map(encodeURIComponent).join('/');
  return new URL(`${base}scores/${path}.json`, location.href).href;
}
