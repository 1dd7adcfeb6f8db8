/** The lessons of the course in the order of its path, fetched from the site when they are first wanted. */
import type { LessonAndNeeds } from './next-lesson.ts';

/** A lesson of the path as the page names it. */
export interface NamedLesson extends LessonAndNeeds {
  readonly title: string;
  /** Along the path, from 1. */
  readonly number: number;
  readonly address: string;
}

let fetched: Promise<readonly NamedLesson[]> | undefined;

/** The lessons that were fetched are those of an earlier reading of the course: they are fetched again. */
export function outdatePathLessons(): void {
  fetched = undefined;
}

/** Empty where the site cannot be reached: the page then stays as it was written. */
export function fetchPathLessons(): Promise<readonly NamedLesson[]> {
  const base = document.documentElement.dataset['base'] ?? '/';
  fetched ??= fetch(`${base}path/lessons.json`)
    .then((response) => (response.ok ? (response.json() as Promise<readonly NamedLesson[]>) : []))
    .catch(() => []);
  return fetched;
}
