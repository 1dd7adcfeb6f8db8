/** What the head and the sentences of a lesson's page say of its music: the places on the page, and what is in them. */

/** The places of a page that say something of the music. */
export interface Said {
  /** The lesson whose page it is; undefined where nothing on it follows the harp. */
  readonly lesson: string | undefined;
  /** Shows what each of these elements holds at the place it names. */
  put(words: readonly Element[]): void;
  /** Shows what was there when the page was opened. */
  restore(): void;
  /** What a place holds as it is written; undefined for a place that was not found. */
  written(place: Element): readonly ChildNode[] | undefined;
}

/** Finds the places, before anything in them is changed: what was `known` has been changed perhaps. */
export function findSaid(known?: Said): Said {
  const places = [...document.querySelectorAll<HTMLElement>('[data-said]')].map((element) => ({
    element,
    written: known?.written(element) ?? [...element.childNodes],
  }));
  const lesson = document.querySelector<HTMLElement>('[data-says]')?.dataset['says'];
  return {
    lesson: places.length > 0 ? lesson : undefined,
    put(words) {
      const byPlace = new Map(words.map((word) => [word.getAttribute('data-said'), word]));
      for (const { element } of places) {
        const word = byPlace.get(element.dataset['said'] ?? '');
        if (word) element.replaceChildren(...word.cloneNode(true).childNodes);
      }
      hideRepeated();
    },
    written: (place) => places.find(({ element }) => element === place)?.written,
    restore() {
      for (const { element, written } of places) element.replaceChildren(...written);
      hideRepeated();
    },
  };
}

/** Two harps of a lesson become one where the student plays all of it on theirs. */
function hideRepeated(): void {
  for (const list of document.querySelectorAll('[data-distinct]')) {
    const seen = new Set<string>();
    for (const item of list.children) {
      const words = item.textContent.trim();
      if (item instanceof HTMLElement) item.hidden = seen.has(words);
      seen.add(words);
    }
  }
}
