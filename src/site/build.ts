/** Builds the site of a course that was checked, into a folder that is claimed for it. */

import { existsSync } from 'node:fs';
import { cp, mkdir, mkdtemp, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Course } from '../course/course.ts';
import { cacheFolder } from './cache-folder.ts';
import { siteConfig } from './config.ts';
import type { Engraver } from './engraver.ts';
import { type Standing, siteOf } from './open.ts';
import { holdSite } from './site.ts';

export async function buildInto(folder: string, course: Course, engraver: Engraver, standing: Standing): Promise<void> {
  process.env['ASTRO_TELEMETRY_DISABLED'] = '1';
  holdSite(Promise.resolve(siteOf(course, engraver, standing)));
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
    const media = join(course.dir, 'media');
    if (course.media.length > 0) await cp(media, join(folder, 'media'), { recursive: true, dereference: true });
  } finally {
    process.chdir(cwd);
    await rm(work, { recursive: true, force: true });
  }
}

async function workFolder(): Promise<string> {
  const folder = join(cacheFolder(), 'work');
  await mkdir(folder, { recursive: true });
  return folder;
}
