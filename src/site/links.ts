/** Where a lesson's links lead on the site. */
import type { Lesson } from '../course/course.ts';
import type { LinkTarget } from '../course/link.ts';
import type { Addresses } from './addresses.ts';

/** The address on the site of what a lesson's link was found to point at; undefined for one that stays as written. */
export function addressOf(addresses: Addresses, lesson: Lesson, written: string): string | undefined {
  const link = lesson.links.find(({ url }) => url === written);
  return link && addressOfTarget(addresses, link.target);
}

function addressOfTarget(addresses: Addresses, target: LinkTarget): string | undefined {
  switch (target.kind) {
    case 'lesson': {
      const { lesson, place, query = '' } = target;
      if (place === undefined) return addresses.lesson(lesson) + query;
      if ('block' in place) return addresses.block(lesson, place.block).replace('#', `${query}#`);
      return `${addresses.lesson(lesson)}${query}#${encodeURIComponent(place.heading)}`;
    }
    case 'media':
      return addresses.file(target.path);
    case 'page':
      return withSlash(addresses.page(target.path)) + target.rest;
    case 'outside':
    case 'broken':
      return undefined;
  }
}

/** Every page is in a folder of its own. */
const withSlash = (address: string): string => address.replace(/\/?$/, '/');
