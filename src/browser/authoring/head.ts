/** What the head of a page says: its title, its icon, and what machines read. */
const FACTS = 'meta[name], meta[property], link[rel="canonical"], link[rel="icon"], script[type="application/ld+json"]';
/** What new parts of a page need: the bundler's server has a style and a script for each style sheet. */
const NEEDED = 'style[data-vite-dev-id], script[type="module"][src]';

/** Takes over what differs in the heads of two documents; returns whether the reader can see any of it. */
export function updateHead(sent: Document, next: Document): boolean {
  const isOther = sent.title !== next.title;
  if (isOther) document.title = next.title;
  if (textOf(sent) !== textOf(next)) {
    for (const fact of document.head.querySelectorAll(FACTS)) fact.remove();
    document.head.append(...[...next.head.querySelectorAll(FACTS)].map((fact) => document.importNode(fact, true)));
  }
  const own = new Set([...document.head.querySelectorAll(NEEDED)].map(nameOf));
  for (const needed of next.head.querySelectorAll(NEEDED)) {
    if (own.has(nameOf(needed))) continue;
    const fresh = document.createElement(needed.localName);
    for (const { name, value } of needed.attributes) fresh.setAttribute(name, value);
    fresh.textContent = needed.textContent;
    document.head.append(fresh);
  }
  return isOther;
}

const textOf = ({ head }: Document): string =>
  [...head.querySelectorAll(FACTS)].map(({ outerHTML }) => outerHTML).join('');
const nameOf = (element: Element): string =>
  element.getAttribute('data-vite-dev-id') ?? new URL(element.getAttribute('src') ?? '', location.href).pathname;
