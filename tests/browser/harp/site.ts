/** A small course built into a folder and served, for tests that open its pages. */

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import type { Course } from '../../../src/course/course.ts';
import { loadCourse } from '../../../src/course/load.ts';
import { buildInto } from '../../../src/publish/build.ts';
import { engraverWith } from '../../../src/publish/engraving/engrave.ts';
import { NO_PACK } from '../../../src/publish/engraving/record-store.ts';
import { CHROMIUM } from '../chromium.ts';

const BAR = "-2 -3' -3 4 -4 -5 4 -3";
const TWELVE = Array.from({ length: 12 }, () => BAR).join(' | ');
const block = (id: string) => `\`\`\`tab\nid: ${id}\n\n${TWELVE} |]\n\`\`\`\n`;

const LESSON = `---
title: On an A harp
harp: A
position: 2
feel: shuffle
form: twelve-bar
---

${[1, 2, 3, 4, 5, 6].map((number) => block(`chorus-${number}`)).join('\n')}
<RoleTable notes="-3 -3' -3''" />

<HarpMap scale="blues" overbends="yes" />

<FormChart targets="-2 | . | 4" />

<BendLadder hole={3} />
`;

const MINOR = `---
title: Another tuning
harp: C
tuning: natural-minor
position: 2
---

\`\`\`tab
id: riff
chords: i7

-2 -3 4 -4 = . . . |]
\`\`\`
`;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
};

export interface OpenSite {
  readonly course: Course;
  readonly url: string;
  readonly browser: Browser;
  close(): Promise<void>;
}

export async function openSite(): Promise<OpenSite> {
  const folder = mkdtempSync(join(tmpdir(), 'harp-site-'));
  const dir = join(folder, 'course');
  const out = join(folder, 'site');
  mkdirSync(join(dir, 'lessons'), { recursive: true });
  mkdirSync(out);
  writeFileSync(join(dir, 'course.yaml'), 'title: A course\n');
  writeFileSync(join(dir, 'lessons/one.mdx'), LESSON);
  writeFileSync(join(dir, 'lessons/minor.mdx'), MINOR);
  const course = loadCourse(dir);
  const errors = course.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new Error(JSON.stringify(errors));
  await buildInto(out, course, engraverWith(NO_PACK), { base: '/under/', origin: undefined, authoring: false });

  const server = createServer(async (request, response) => {
    let path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname).replace(/^\/under/, '');
    if (path.endsWith('/')) path += 'index.html';
    const body = await readFile(join(out, path)).catch(() => undefined);
    response.writeHead(body ? 200 : 404, { 'content-type': TYPES[extname(path)] ?? 'text/plain' });
    response.end(body ?? 'nothing here');
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const browser = await chromium.launch(CHROMIUM);
  return {
    course,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/under`,
    browser,
    async close() {
      await browser.close();
      await new Promise((done) => server.close(done));
      rmSync(folder, { recursive: true });
    },
  };
}
