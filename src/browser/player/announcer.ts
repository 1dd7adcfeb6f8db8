/** What a screen reader announces: one short sentence at a time, and only the last of several that come at once. */
import { make } from './dom.ts';

/** A live region, through which a screen reader says what changed. */
export interface Announcer {
  readonly element: HTMLElement;
  readonly say: (sentence: string) => void;
}

/** Milliseconds that a sentence waits for a later one to take its place. */
const ANNOUNCEMENT_DELAY = 700;

/** A live region that announces sentences to screen readers. */
export function createAnnouncer(): Announcer {
  const element = make('p', { class: 'aloud', 'aria-live': 'polite' });
  let waiting: ReturnType<typeof setTimeout> | undefined;
  return {
    element,
    say: (sentence) => {
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        element.textContent = sentence;
      }, ANNOUNCEMENT_DELAY);
    },
  };
}
