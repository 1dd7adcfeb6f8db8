/** A lesson's scores, fetched only by a student who plays another harp than the one it is written for. */
import type { APIRoute } from 'astro';
import type { Scores } from '../../../browser/harp/worker.ts';
import { blockParts } from '../../addresses.ts';
import { theSite } from '../../site.ts';

export async function getStaticPaths() {
  const { lessons } = await theSite();
  return lessons.map(({ id }) => ({ params: { lesson: id } }));
}

export const GET: APIRoute = async ({ params }) => {
  const { course } = await theSite();
  const blocks = course.byId.get(params['lesson'] ?? '')?.blocks ?? [];
  const scores: Scores = Object.fromEntries(
    blocks.flatMap((block) => (block.score ? [[block.id, { id: blockParts(block.id), score: block.score }]] : [])),
  );
  return new Response(JSON.stringify(scores), { headers: { 'content-type': 'application/json' } });
};
