/** An author at work: a course that is served, a browser that shows its pages, and saves that are waited for. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { courseOf, write } from '../../course/some-course.ts';
import { started } from '../../publish/some-site.ts';
import { withBrowser } from '../with-browser.ts';

const BAR = '-2 -3 -4 5';
const PARAGRAPHS = Array.from({ length: 12 }, (_, index) => `Paragraph ${index + 1} of some words.`).join('\n\n');

/** Marks every element of a page, so that it can be seen which of them are still the same. */
export const mark = (page: Page): Promise<void> =>
  page.evaluate(() => {
    for (const element of document.querySelectorAll('body, body *')) Object.assign(element, { marked: true });
  });
export const isMarked = (page: Page, selector: string): Promise<boolean> =>
  page.evaluate((one) => Reflect.get(document.querySelector(one) ?? {}, 'marked') === true, selector);

/** A lesson of a long text and two blocks. */
export const FIRST = `---
title: First
harp: C
position: 2
---

The opening words, with a [link](second) in them.

<details>
<summary>More of it</summary>

Hidden words.

</details>

${PARAGRAPHS}

\`\`\`tab
id: tune
title: The tune
slot: 1/4
tempo: 120
${BAR} | -4 5 -5 6 | 6 -5 5 -4 | 5 -4 -3 -2
\`\`\`

Between the blocks.

\`\`\`tab
id: other
title: The other
slot: 1/4
tempo: 60
4 5 6 7 | 7 6 5 4 | 4 5 6 7 | 7 6 5 4
\`\`\`

<BendLadder hole={3} />

The last words.
`;
export const SECOND = `---
title: Second
harp: C
requires: [first]
---

Words of the second lesson.

![A mark](media/mark.svg)

\`\`\`tab
slot: 1/4
tempo: 60
4 -4 5 -5 | 5 -5 4 -4 | 4 -4 5 -5 | 5 -5 4 -4
\`\`\`
`;
const MARK = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><rect width="9" height="9"/></svg>';
const FILES = {
  'course.yaml': 'title: A course\n',
  'lessons/first.mdx': FIRST,
  'lessons/second.mdx': SECOND,
  'media/mark.svg': MARK,
};

export interface Author {
  readonly address: string;
  readonly dir: string;
  /** Opens a page of the course, and waits until it follows what is saved. */
  open(path: string): Promise<Page>;
  /** Writes a lesson, or a file by its path in the course, and waits until these pages show it. */
  save(text: string, file: string, ...pages: readonly Page[]): Promise<void>;
}

interface Fixtures {
  readonly served: { readonly address: string; readonly dir: string };
  readonly author: Author;
}

export const test = withBrowser.extend<Fixtures>({
  served: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures that one needs from its first argument.
    async ({}, use) => {
      const dir = courseOf(FILES);
      const { address, child } = await started(['serve', dir, '--port', '4310']);
      await use({ address, dir });
      child.kill();
    },
    { scope: 'file' },
  ],
  author: async ({ served: { address, dir }, newPage }, use) => {
    const open = async (path: string): Promise<Page> => {
      const page = await newPage({ viewport: { width: 1200, height: 900 } });
      await page.addInitScript(() => {
        document.addEventListener('reedway:shown', () => {
          Object.assign(window, { shown: Number(Reflect.get(window, 'shown') ?? 0) + 1 });
        });
      });
      const connected = page.waitForEvent('console', (message) => message.text().includes('connected.'));
      await page.goto(address + path);
      await connected;
      return page;
    };
    const shown = (page: Page): Promise<number> => page.evaluate(() => Number(Reflect.get(window, 'shown') ?? 0));
    const save: Author['save'] = async (text, file, ...pages) => {
      const before = await Promise.all(pages.map(shown));
      write(dir, file.includes('.') ? file : `lessons/${file}.mdx`, text);
      await Promise.all(
        pages.map((page, index) =>
          page.waitForFunction((least) => Number(Reflect.get(window, 'shown')) > least, before[index] ?? 0),
        ),
      );
    };
    const pages = ['lessons/first/', 'lessons/second/'];
    const all = () => Promise.all(pages.map(async (path) => (await fetch(address + path)).text()));
    const before = await all();
    await use({ address, dir, open, save });
    for (const [path, text] of Object.entries(FILES))
      if (readFileSync(join(dir, path), 'utf8') !== text) write(dir, path, text);
    // The next test begins with the course as it was, and with no save on its way.
    await expect.poll(all).toEqual(before);
    await sleep(300);
  },
});
