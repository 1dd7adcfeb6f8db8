/** Where things of a course are on its site: every address is made here, under the site's base. */

export interface Addresses {
  /** Starts and ends with a slash. */
  readonly base: string;
  /** A page of the site by its path below the base, without a leading slash: `''` is the home page. */
  page(path: string): string;
  lesson(id: string): string;
  block(lesson: string, block: string): string;
  technique(id: string): string;
  /** A file that is served as it is, by its path below the course folder (`media/harp.svg`). */
  file(path: string): string;
}

/** The addresses of a site below a base path, which may be written with or without slashes. */
export function addressesUnder(base: string): Addresses {
  const root = normalBase(base);
  const page = (path: string): string => root + path;
  const lesson = (id: string): string => page(`lessons/${escapePath(id)}/`);
  return {
    base: root,
    page,
    lesson,
    technique: (id) => page(`techniques/${escapePath(id)}/`),
    block: (of, block) => `${lesson(of)}#${encodeURIComponent(blockAnchor(block))}`,
    file: (path) => page(escapePath(path)),
  };
}

/** The file with the licences of what others made, below the base. */
export const LICENCES = 'licences.txt';

/** The `id` of a block's figure on its lesson's page. */
export const blockAnchor = (block: string): string => `block-${block}`;

/** What the ids of a block's own parts begin with on its page. */
export const blockParts = (block: string): string => `b-${block}`;

/** `course`, `/course` and `/course/` all mean `/course/`. */
export function normalBase(base: string): string {
  const inner = base.replace(/^\/+|\/+$/g, '');
  return inner === '' ? '/' : `/${inner}/`;
}

const escapePath = (path: string): string => path.split('/').map(encodeURIComponent).join('/');
