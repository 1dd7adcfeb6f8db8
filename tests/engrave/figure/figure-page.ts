/** The HTML of figures as a page and as XML. For tests in jsdom. */
import { expect } from 'vitest';

/** Fails for markup that is no XML. */
export function wellFormed(html: string): void {
  const parsed = new DOMParser().parseFromString(
    `<figure xmlns="http://www.w3.org/1999/xhtml">${html}</figure>`,
    'application/xml',
  );
  expect(parsed.querySelector('parsererror')?.textContent).toBeUndefined();
}
/** The page of a figure. */
export const page = (html: string): Document =>
  new DOMParser().parseFromString(`<figure>${html}</figure>`, 'text/html');
/** What is read aloud and shown, with single spaces. */
export const textOf = (element: Element | null | undefined): string =>
  element?.textContent?.replace(/\s+/g, ' ').trim() ?? '';
