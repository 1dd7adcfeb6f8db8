/**
 * What building a site costs: a made-up course built by Reedway, from nothing and again with its engraved bars kept, as a
 * ratio to a bare Astro build of the same files with their blocks left as code. All builds are processes of their own.
 *
 *     node bench/building.ts [LESSONS] [ROUNDS]
 */
import { mkdir, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { cacheFolder } from '../src/publish/cache-folder.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { busy, least, type Ran, ROOT, run, runNode } from './measure.ts';
import { atMost, ratio, row, type Section, seconds } from './table.ts';

const BLOCKS = 6;
/** How much longer than a bare build. */
const AIM = { cold: 1.8, warm: 1.15 };

export async function building(lessons = 200, rounds = 2): Promise<Section> {
  const bare: Ran[] = [];
  const cold: Ran[] = [];
  const warm: Ran[] = [];
  const edited: Ran[] = [];
  for (let round = 0; round < rounds; round++) {
    await inFolder(async (folder) => {
      const course = join(folder, 'course');
      const out = join(folder, 'site');
      writeCourse(course, { lessons, blocks: BLOCKS });
      bare.push(await buildBare(join(folder, 'bare'), course));
      const build = (): Promise<Ran> => runNode('src/command/reedway.ts', 'build', course, '--out', out);
      await withoutTraces(async () => {
        // A folder that was never built before has nothing kept.
        cold.push(await build());
        warm.push(await build());
        // The last lesson, which none quotes.
        await editLesson(join(course, 'lessons', `lesson-${`${lessons}`.padStart(4, '0')}.mdx`));
        edited.push(await build());
      });
    });
  }
  const [base, first, again, after] = [least(bare), least(cold), least(warm), least(edited)];
  const both = ({ cpu, clock }: { cpu: number; clock: number }): string =>
    `${seconds(cpu)} (${seconds(clock)} by the clock)`;
  return {
    title: 'Building a site',
    how: `${lessons} lessons of ${BLOCKS} blocks; processor time of each build with all it starts, least of ${rounds}; load ${busy()}.`,
    rows: [
      row('bare Astro, blocks left as code', both(base)),
      row('Reedway, nothing kept', both(first)),
      row('Reedway, nothing changed', both(again)),
      row('Reedway, one lesson changed', both(after)),
      atMost('nothing kept, to bare, by the clock', first.clock / base.clock, AIM.cold, ratio),
      atMost('nothing kept, to bare, processor time', first.cpu / base.cpu, AIM.cold, ratio),
      atMost('nothing changed, to bare, by the clock', again.clock / base.clock, AIM.warm, ratio),
      atMost('nothing changed, to bare, processor time', again.cpu / base.cpu, AIM.warm, ratio),
      row('one lesson changed, to bare, by the clock', ratio(after.clock / base.clock)),
    ],
  };
}

/** Takes away what builds of made-up courses leave in the cache. */
export async function withoutTraces(work: () => Promise<void>): Promise<void> {
  const kept = join(cacheFolder(), 'engraved');
  const list = (): Promise<string[]> => readdir(kept).catch(() => []);
  const before = new Set(await list());
  try {
    await work();
  } finally {
    for (const name of await list())
      if (!before.has(name)) await rm(join(kept, name), { recursive: true, force: true });
  }
}

async function editLesson(file: string): Promise<void> {
  const text = await readFile(file, 'utf8');
  await writeFile(file, text.replace(/```tab\n([\s\S]*?)\n```/, '```tab\nslot: 1/4\n\n-2 -3 4 -4 | 4 -3 -2 . |]\n```'));
}

/** A project with nothing but Astro and MDX in it: one page for each file. */
async function buildBare(project: string, course: string): Promise<Ran> {
  const files = {
    'package.json': '{ "type": "module", "private": true }',
    'astro.config.mjs': `
import mdx from '@astrojs/mdx';
export default { integrations: [mdx()], markdown: { syntaxHighlight: false }, devToolbar: { enabled: false } };`,
    'src/content.config.ts': `
import { defineCollection } from 'astro:content';
import { glob } from 'astro/loaders';
export const collections = { lessons: defineCollection({ loader: glob({ pattern: '**/*.mdx', base: ${JSON.stringify(join(course, 'lessons'))} }) }) };`,
    'src/pages/[...lesson].astro': `---
import { getCollection, render } from 'astro:content';
export async function getStaticPaths() {
  return (await getCollection('lessons')).map((entry) => ({ params: { lesson: entry.id }, props: { entry } }));
}
const { entry } = Astro.props;
const { Content } = await render(entry);
---
<!doctype html>
<html lang="en"><head><meta charset="utf-8" /><title>{entry.data.title}</title></head><body><h1>{entry.data.title}</h1><Content /></body></html>`,
  };
  for (const [name, text] of Object.entries(files)) {
    await mkdir(join(project, name, '..'), { recursive: true });
    await writeFile(join(project, name), text);
  }
  await symlink(join(ROOT, 'node_modules'), join(project, 'node_modules'));
  const ran = await run(
    process.execPath,
    [join(project, 'node_modules', 'astro', 'bin', 'astro.mjs'), 'build', '--silent'],
    { cwd: project },
  );
  const pages = await readdir(join(project, 'dist'));
  if (!pages.includes('lesson-0001')) throw new Error(`The bare build made no pages.\n${ran.out}`);
  return ran;
}

if (import.meta.main) {
  const [lessons, rounds] = process.argv.slice(2).map(Number);
  (await import('./table.ts')).print(await building(lessons, rounds));
}
