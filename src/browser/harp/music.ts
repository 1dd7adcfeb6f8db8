/** The music of a lesson, fetched when a student needs it: to show the page for another harp, or to save a block as a file. */
import type { Inline } from '../../engrave/inline/inline.ts';
import type { Credits } from '../../interchange/credits.ts';
import type { Score } from '../../score/score.ts';

/** A block's score, the name the engraver gives its parts, and what a file of it says of where it comes from. */
export interface SiteScore {
  readonly id: string;
  readonly score: Score;
  readonly credits: Credits;
}

/** What of a lesson's page follows the harp. */
export interface LessonMusic {
  /** By the ids of their blocks. */
  readonly scores: Readonly<Record<string, SiteScore>>;
  /** What the head of its page says of the blocks, by the names of the places there. */
  readonly head: Readonly<Record<string, Inline>>;
  /** What its sentences say of the music. Their words are written for one tuning, so they follow the key of the harp alone. */
  readonly said: Readonly<Record<string, Inline>>;
}

/** Counts up while the author of the lesson changes it. */
let edition = 0;

/** What was fetched is of an earlier reading of the course: it is fetched again. */
export function outdateMusic(): void {
  edition++;
  fetched.clear();
}

const fetched = new Map<string, Promise<LessonMusic>>();

/** A failed fetch is not remembered: the next one tries again. */
export function musicAt(address: string): Promise<LessonMusic> {
  const music = fetched.get(address) ?? fetchMusic(address);
  const [path = ''] = address.split('?');
  // An earlier edition is asked for no more.
  for (const known of fetched.keys()) if (known !== address && known.split('?')[0] === path) fetched.delete(known);
  fetched.set(address, music);
  music.catch(() => fetched.delete(address));
  return music;
}

async function fetchMusic(address: string): Promise<LessonMusic> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return response.json() as Promise<LessonMusic>;
}

/** A block's score at the address of its lesson's music. Rejects where there is none, or it cannot be fetched. */
export async function siteScoreAt(address: string, block: string): Promise<SiteScore> {
  const { scores } = await musicAt(address);
  const found = Object.hasOwn(scores, block) ? scores[block] : undefined;
  if (!found) throw new Error(`there is no score of ${block}`);
  return found;
}

/** The whole address of a lesson's music, on the site of this page. */
export function musicAddress(lesson: string): string {
  const base = document.documentElement.dataset['base'] ?? '/';
  const path = lesson.split('/').map(encodeURIComponent).join('/');
  const query = edition > 0 ? `?edition=${edition}` : '';
  return new URL(`${base}music/${path}.json${query}`, location.href).href;
}
