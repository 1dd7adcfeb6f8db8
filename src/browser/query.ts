/** Elements of the page, found with their kind checked. */

interface Kind<Found extends Element> {
  readonly name: string;
  new (): Found;
}

/** The element a selector finds. Throws where there is none, or one of another kind: the page and its script disagree. */
export function query<Found extends Element>(parent: ParentNode, selector: string, kind: Kind<Found>): Found {
  const found = parent.querySelector(selector);
  if (!(found instanceof kind)) throw new Error(`The page has no ${kind.name} “${selector}”.`);
  return found;
}

/** The element an event happened at; null where it was none. */
export const elementAt = ({ target }: Event): Element | null => (target instanceof Element ? target : null);
