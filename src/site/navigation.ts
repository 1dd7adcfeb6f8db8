import type { Course } from '../course/course.ts';
import type { PAGE } from '../texts/english/page.ts';

/** The pages every visitor may want at any time, in the order they are at the head of each page. */
export interface NavigationPage {
  /** Below the site's base. */
  readonly path: string;
  /** A row of the table of texts. */
  readonly title: keyof typeof PAGE & ('path' | 'techniques' | 'harps' | 'guide' | 'playAlong' | 'glossary');
}

/** The page of the words that a course explains, below the base. */
export const GLOSSARY_PAGE = 'glossary';

const PAGES: readonly NavigationPage[] = [
  { path: 'path/', title: 'path' },
  { path: 'techniques/', title: 'techniques' },
  { path: 'harps/', title: 'harps' },
  { path: 'guide/', title: 'guide' },
  { path: 'play-along/', title: 'playAlong' },
];

/** The pages linked at the head of every page. */
export const navigationOf = ({ glossary }: Pick<Course, 'glossary'>): readonly NavigationPage[] =>
  glossary.terms.length > 0 ? [...PAGES, { path: `${GLOSSARY_PAGE}/`, title: 'glossary' }] : PAGES;
