/** An author at work: a course that is served, a browser that shows its pages, and saves that are waited for. */
import type { Page } from 'playwright-core';
import { courseOf, write } from '../../course/some-course.ts';
import { started } from '../../publish/some-site.ts';
import { withBrowser } from '../with-browser.ts';

export const BAR = '-2 -3 -4 5';
const PARAGRAPHS = Array.from({ length: 12 }, (_, index) => `Paragraph ${index + 1} of some words.`).join('\n\n');

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
tempo: 120
4 5 6 7
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

\`\`\`tab
slot: 1/4
4 -4 5 -5
\`\`\`
`;
export const TITLE = 'title: A course\n';

export interface Author {
  readonly address: string;
  readonly dir: string;
  /** Opens a page of the course, and waits until it follows what is saved. */
  open(path: string): Promise<Page>;
  /** Writes a file of the course, and waits until these pages show it. */
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
      const dir = courseOf({ 'course.yaml': TITLE, 'lessons/first.mdx': FIRST, 'lessons/second.mdx': SECOND });
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
          const root = document.documentElement;
          Object.assign(window, { shown: Number(Reflect.get(window, 'shown') ?? 0) + 1 });
          root.dispatchEvent(new Event('shown'));
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
      write(dir, `lessons/${file}.mdx`, text);
      await Promise.all(
        pages.map((page, index) =>
          page.waitForFunction((least) => Number(Reflect.get(window, 'shown')) > least, before[index] ?? 0),
        ),
      );
    };
    await use({ address, dir, open, save });
    write(dir, 'course.yaml', TITLE);
    write(dir, 'lessons/first.mdx', FIRST);
    write(dir, 'lessons/second.mdx', SECOND);
    // The next test begins with the course as it was.
    const page = await open('lessons/first/');
    for (let text = ''; !/Words of the second lesson/.test(text); )
      text = await (await fetch(`${address}lessons/second/`)).text();
    await page.waitForFunction(
      async () => /The last words/.test(await (await fetch(location.pathname)).text()),
      undefined,
    );
  },
});
