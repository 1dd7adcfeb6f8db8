/** Builds the site of a course that was checked, into a folder that is claimed for it. */
import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Course } from '../course/course.ts';
import { cacheFolder } from './cache-folder.ts';
import { siteConfig } from './config.ts';
import type { Engraver } from './engraver.ts';
import { type Standing, siteOf } from './open.ts';
import { scoresPath, scoresText } from './scores.ts';
import { holdSite } from './site.ts';

export async function buildInto(folder: string, course: Course, engraver: Engraver, standing: Standing): Promise<void> {
  process.env['ASTRO_TELEMETRY_DISABLED'] = '1';
  const site = siteOf(course, engraver, standing);
  holdSite(Promise.resolve(site));
  const { build } = await import('astro');
  // Astro puts the code of the pages under the working folder while it runs; it has to find its packages from there,
  // and builds that run at the same time must not share one.
  const work = await mkdtemp(join(await workFolder(), 'build-'));
  const cwd = process.cwd();
  try {
    process.chdir(work);
    const publicDir = join(course.dir, 'public');
    await build({
      ...siteConfig({
        ...standing,
        cacheDir: work,
        publicDir: existsSync(publicDir) ? publicDir : undefined,
      }),
      outDir: folder,
    });
    for (const lesson of site.lessons) {
      const file = join(folder, scoresPath(lesson));
      await mkdir(dirname(file), { recursive: true });
      await writeFile(file, scoresText(lesson));
    }
    for (const file of course.media) await cp(join(course.dir, file), join(folder, file), { dereference: true });
  } finally {
    process.chdir(cwd);
    await rm(work, { recursive: true, force: true });
  }
}

/** What a build that was killed left behind is this old before it is taken away: it may be running still. In milliseconds. */
const LEFT_BEHIND = 24 * 60 * 60 * 1000;

async function workFolder(): Promise<string> {
  const folder = join(cacheFolder(), 'work');
  await mkdir(folder, { recursive: true });
  for (const name of await readdir(folder)) {
    const left = join(folder, name);
    const stats = await stat(left).catch(() => undefined);
    if (stats && Date.now() - stats.mtimeMs > LEFT_BEHIND) await rm(left, { recursive: true, force: true });
  }
  return folder;
}
