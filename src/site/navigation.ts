import type { PAGE } from '../texts/english/page.ts';

/** The pages every visitor may want at any time, in the order they are at the head of each page. */
export interface NavigationPage {
  /** Below the site's base. */
  readonly path: string;
  /** A row of the table of texts. */
  readonly title: keyof typeof PAGE & ('path' | 'techniques' | 'harps' | 'guide');
}

/** The pages linked at the head of every page. */
export const NAVIGATION: readonly NavigationPage[] = [
  { path: 'path/', title: 'path' },
  { path: 'techniques/', title: 'techniques' },
  { path: 'harps/', title: 'harps' },
  { path: 'guide/', title: 'guide' },
];
