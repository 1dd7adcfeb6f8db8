/** The lessons along the path, for a student who is on their way: fetched by pages that point onward. */
import type { APIRoute } from 'astro';
import type { NamedLesson } from '../../../browser/progress/path-lessons.ts';
import { theSite } from '../../site.ts';

/** The lessons of the path as JSON, an array of {@link NamedLesson}. */
export const GET: APIRoute = async () => {
  const { lessons, outline, addresses } = await theSite();
  const named = lessons.flatMap(({ id, frontMatter }): NamedLesson[] => {
    const place = outline.places.get(id);
    if (!place) return [];
    const needs = place.needs.map((one) => one.lesson.id);
    return [{ id, needs, title: frontMatter.title, number: place.number, address: addresses.lesson(id) }];
  });
  return new Response(JSON.stringify(named), { headers: { 'content-type': 'application/json' } });
};
