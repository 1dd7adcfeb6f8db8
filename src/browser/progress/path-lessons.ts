/** The lessons of the course in the order of its path, fetched from the site when they are first wanted. */
import type { Stop } from './next-lesson.ts';

export interface NamedStop extends Stop {
  readonly title: string;
  /** Along the path, from 1. */
  readonly number: number;
  readonly address: string;
}

let fetched: Promise<readonly NamedStop[]> | undefined;

/** Empty where the site cannot be reached: the page then stays as it was written. */
export function fetchStops(): Promise<readonly NamedStop[]> {
  const base = document.documentElement.dataset['base'] ?? '/';
  fetched ??= fetch(`${base}path/stops.json`)
    .then((response) => (response.ok ? (response.json() as Promise<readonly NamedStop[]>) : []))
    .catch(() => []);
  return fetched;
}
