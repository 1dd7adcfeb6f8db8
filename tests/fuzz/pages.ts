/** Lessons as the authoring server shows them: nothing that a lesson holds may run, or ask another site for anything. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { JSDOM } from 'jsdom';
import { isPublishable } from '../../src/course/course.ts';
import { courseOfFiles, DEFAULT_FILES } from './course-in-memory.ts';
import { lessonFile } from './lesson-text.ts';
import { type Running, someCourse, started } from './process.ts';
import { demand, type Target } from './target.ts';

let running: Running | undefined;
let folder = '';
let count = 0;

/** Addresses that a page may have on it without asking for them. */
const ASKED_FOR = ['src', 'srcset', 'poster', 'data', 'action', 'formaction', 'ping', 'background', 'xlink:href'];

function checkPage(html: string): void {
  const { document } = new JSDOM(html).window;
  const main = document.querySelector('main') ?? document.body;
  const elements = [...document.querySelectorAll('*')];
  demand(
    elements.every((element) => [...element.attributes].every(({ name }) => !/^on/i.test(name))),
    'an element has a handler of events',
  );
  demand(
    main.querySelector('iframe, object, embed, form, base, link, meta, style:not([data-vite-dev-id])') === null,
    'a forbidden element is in the page',
  );
  for (const script of document.querySelectorAll('script'))
    demand(
      !/PLANTED/.test(script.textContent ?? '') ||
        script.type === 'application/json' ||
        script.type === 'application/ld+json',
      'a planted script is in the page',
    );
  for (const element of elements)
    for (const { name, value } of element.attributes) {
      const address = value.replace(/[\s\p{Cc}]/gu, '').toLowerCase();
      demand(!(name === 'href' && /^(?:javascript|data|vbscript):/.test(address)), `an address runs code: ${value}`);
      demand(
        !(
          ASKED_FOR.includes(name) &&
          /evil\.example|^javascript:/.test(address) &&
          !/^(?:video|audio)$/i.test(element.localName)
        ),
        `another site is asked: ${element.localName} ${name}="${value}"`,
      );
    }
}

export const pages: Target<string> = {
  name: 'pages',
  limit: 20,
  batch: 20,
  pure: false,
  cases: lessonFile,
  async start() {
    const { root, dir } = someCourse();
    folder = dir;
    writeFileSync(join(dir, 'lessons/lesson.mdx'), '---\ntitle: A lesson\n---\n');
    running = await started(['serve', dir], root);
  },
  async stop() {
    running?.stop();
  },
  async check(text) {
    demand(running !== undefined, 'the server is not started');
    const marker = `MARK-${++count}-END`;
    const marked = `${text}\n\n${marker}\n`;
    writeFileSync(join(folder, 'lessons/lesson.mdx'), marked);
    const publishable = isPublishable(courseOfFiles({ ...DEFAULT_FILES, 'lessons/lesson.mdx': marked }));
    let html = '';
    for (let attempt = 0; attempt < 100; attempt++) {
      await sleep(attempt === 0 ? 150 : 50);
      const answer = await fetch(`http://localhost:${running.port}/lessons/lesson/`);
      html = await answer.text();
      demand(answer.status === 200 || !publishable, `the page has the status ${answer.status}`);
      demand(html.includes('</html>'), 'the page is cut');
      checkPage(html);
      // What has an error may be shown by its problems alone, and text inside a comment or a fence not as it is.
      if (html.includes(marker) || !publishable) return;
    }
    demand(false, 'a lesson without an error is not shown');
  },
};
