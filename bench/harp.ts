/**
 * What another harp costs a student: how much is loaded, how soon the page is, and what it adds to a build.
 *
 *     node bench/harp.ts
 *
 * A page of six twelve-bar blocks and four figures is built, served and opened in Chromium; its harp is chosen, and
 * chosen again.
 */
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { engraveBlock } from '../src/engrave/block.ts';
import { drawFigure } from '../src/engrave/figure/draw.ts';
import { openSite } from '../tests/browser/harp/site.ts';
import { atMost, kilobytes, print, ratio, row, seconds } from './table.ts';

const site = await openSite();
try {
  const page = await site.browser.newPage({ viewport: { width: 1200, height: 900 } });
  const asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(`${site.url}/lessons/one/`);
  await page.waitForLoadState('networkidle');
  const before = await weight(asked.splice(0).filter((url) => url.endsWith('.js')));
  const first = await setFor(page, 'low F');
  const scripts = await weight(asked.filter((url) => url.endsWith('.js')));
  const scores = await weight(asked.filter((url) => url.endsWith('.json')));
  const later = [];
  for (const harp of ['high G', 'Bb', 'E', 'low D']) later.push(await setFor(page, harp));
  const again = later.reduce((least, one) => (one.all < least.all ? one : least));

  const lesson = site.course.byId.get('one');
  if (!lesson) throw new Error('the course has no lesson');
  const built = timed(() => {
    for (const { id, score } of lesson.blocks) if (score) engraveBlock(score, { id });
  });
  const figures = timed(() => {
    for (const { figure } of lesson.figures) if (figure) drawFigure(figure, site.course.file);
  });
  const written = timed(() => JSON.stringify(lesson.blocks.map(({ score }) => score)));
  print({
    title: 'Another harp',
    how: 'A page of six twelve-bar blocks and four figures. Times by the clock of the page, from the choice on.',
    rows: [
      atMost('engraver and outlines, loaded on the first choice, gzip', scripts, 130 * 1024, kilobytes),
      row('the page’s scores, loaded with it, gzip', kilobytes(scores)),
      row('scripts of the page without a choice, gzip', kilobytes(before)),
      row('first block is, engraver loaded for it', seconds(first.first)),
      atMost('whole page is, engraver loaded for it', first.all, 1, seconds),
      atMost('whole page is on a later choice', again.all, 1, seconds),
      row('longest the page itself was held up meanwhile', seconds(first.held)),
      row('writing the scores, to engraving the blocks at build time', ratio(written / built)),
      row('drawing the figures, to engraving the blocks', ratio(figures / built)),
    ],
  });
} finally {
  await site.close();
}

interface Set {
  /** Seconds from the choice on. */
  readonly first: number;
  readonly all: number;
  /** The longest time between two turns of the page's own loop. */
  readonly held: number;
}

function setFor(page: Page, harp: string): Promise<Set> {
  return page.evaluate(async (name) => {
    const started = performance.now();
    let first = 0;
    let held = 0;
    let last = started;
    const turns = new MessageChannel();
    turns.port1.onmessage = () => {
      const now = performance.now();
      held = Math.max(held, now - last);
      last = now;
      turns.port2.postMessage(0);
    };
    turns.port2.postMessage(0);
    document.addEventListener(
      'reedway:redrawn',
      () => {
        first = performance.now() - started;
      },
      { once: true },
    );
    const key = document.querySelector('select[name="key"]') as HTMLSelectElement;
    const register = document.querySelector('select[name="register"]') as HTMLSelectElement;
    const status = document.querySelector('harp-choice [role="status"]') as HTMLElement;
    const letter = name.split(' ').at(-1);
    key.value = [...key.options].find((option) => option.dataset['key'] === letter)?.value ?? '';
    register.value = name.includes(' ') ? (name.split(' ')[0] ?? '') : 'standard';
    status.textContent = '';
    key.dispatchEvent(new Event('change', { bubbles: true }));
    while (!/Showing|could not/.test(status.textContent ?? '')) await new Promise(requestAnimationFrame);
    const all = performance.now() - started;
    turns.port1.close();
    return { first: first / 1000, all: all / 1000, held: held / 1000 };
  }, harp);
}

async function weight(urls: readonly string[]): Promise<number> {
  const bodies = await Promise.all([...new Set(urls)].map(async (url) => (await fetch(url)).arrayBuffer()));
  return bodies.reduce((sum, body) => sum + gzipSync(body, { level: 9 }).length, 0);
}

/** The least of a few rounds, in milliseconds. */
function timed(work: () => void): number {
  const rounds = Array.from({ length: 9 }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
  return Math.min(...rounds);
}
