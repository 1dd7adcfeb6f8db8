/** A teacher's recording on a lesson's page: with and without scripts, its cues, its loops, and one that stands elsewhere. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { buildInto } from '../../src/site/build.ts';
import { engraverWith } from '../../src/site/engraving.ts';
import { type Hosted, host } from '../../src/site/host.ts';
import { NO_PACK } from '../../src/site/pack.ts';
import { openBrowser, type Served, serve, wavOf } from './sound/studio.ts';

const LESSON = (elsewhere: string): string => `---
title: The head
harp: C
clips:
  slowly:
    src: media/head.wav
    title: The head, slowly
    captions: media/head.vtt
    cues:
      - { at: 0:01, bars: 1-2 }
      - { at: 0:03, bars: 3 }
      - { at: 0:05, until: 0:06.5, bars: 4 }
---

\`\`\`tab
id: head
slot: 1/4

4 . -4 . | 5 . -5 . | 6 . -6 . | 7 . -7 . |]
\`\`\`

<Clip name="slowly" />

<Clip src="${elsewhere}talk.wav" title="A talk" />

<Clip src="https://video.example/embed/3" title="A page" />

<Clip src="media/film.mp4" title="A film" captions="media/head.vtt" />
`;

const VTT =
  'WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nNow the call.\n\n00:00:03.000 --> 00:00:05.000\nNow the answer.\n';

let folder: string;
let hosted: Hosted;
let elsewhere: Served;
let browser: Browser;
let page: Page;
const asked: string[] = [];

beforeAll(async () => {
  // Eight seconds of a quiet tone.
  const tone = Float32Array.from({ length: 8 * 8000 }, (_, i) => 0.1 * Math.sin((2 * Math.PI * 330 * i) / 8000));
  const wav = wavOf({ samples: tone, rate: 8000 });
  elsewhere = await serve({ '/talk.wav': { type: 'audio/wav', body: wav } }, (path) => asked.push(path));
  folder = mkdtempSync(join(tmpdir(), 'clips-'));
  const course = join(folder, 'course');
  for (const inner of ['lessons', 'media']) mkdirSync(join(course, inner), { recursive: true });
  writeFileSync(join(course, 'course.yaml'), 'title: A course\n');
  writeFileSync(join(course, 'lessons/head.mdx'), LESSON(elsewhere.address));
  writeFileSync(join(course, 'media/head.wav'), wav);
  writeFileSync(join(course, 'media/head.vtt'), VTT);
  writeFileSync(join(course, 'media/film.mp4'), 'no film');
  const loaded = loadCourse(course);
  const wrong = loaded.problems.filter(({ severity }) => severity === 'error');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join('\n'));
  const out = join(folder, 'site');
  mkdirSync(out);
  await buildInto(out, loaded, engraverWith(NO_PACK), { base: '/under/', origin: undefined, authoring: false });
  hosted = await host(out, '/under/', 0);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  hosted?.server.close();
  elsewhere?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open(scripts = true): Promise<void> {
  await page?.context().close();
  const context = await browser.newContext({ javaScriptEnabled: scripts, viewport: { width: 1000, height: 1400 } });
  page = await context.newPage();
  await page.route('https://video.example/**', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>Elsewhere</title><p>A page of elsewhere.' }),
  );
  page.on('pageerror', (error) => {
    throw error;
  });
  asked.length = 0;
  await page.goto(`${hosted.address}lessons/head/`);
}
beforeEach(() => open());

const clip = () => page.locator('#clip-0');
const time = () =>
  clip()
    .locator('audio')
    .evaluate((audio: HTMLAudioElement) => audio.currentTime);
const litBars = () =>
  page
    .locator('.tile.heard')
    .evaluateAll((tiles) => tiles.map((tile) => Number((tile as HTMLElement).dataset['bar']) + 1));

describe('a clip of the course', () => {
  test('lights up the bars that are played, and shows its captions', async () => {
    await clip()
      .locator('audio')
      .evaluate((audio: HTMLAudioElement) => audio.play());
    await expect.poll(litBars, { timeout: 8000 }).toEqual([1, 2]);
    await expect.poll(() => clip().locator('.clip-words').textContent()).toBe('Now the call.');
    await expect.poll(litBars, { timeout: 8000 }).toEqual([3]);
    await expect.poll(() => clip().locator('.clip-words').textContent()).toBe('Now the answer.');
    await expect.poll(litBars, { timeout: 8000 }).toEqual([4]);
    // The last passage ends before the recording does.
    await expect.poll(litBars, { timeout: 8000 }).toEqual([]);
  });

  test('plays from a cue of its list, from the link beside the block, and from the button on the bar', async () => {
    await clip().getByRole('button', { name: '0:03 bar 3' }).click();
    await expect.poll(time).toBeGreaterThanOrEqual(3);
    expect(await litBars()).toEqual([3]);
    await page.getByRole('link', { name: 'bars 1 to 2, 0:01' }).click();
    await expect.poll(litBars).toEqual([1, 2]);
    expect(await time()).toBeLessThan(3);
    const onBar = page.getByRole('button', { name: 'Play the clip from 0:05' });
    const [button, tile] = [await onBar.boundingBox(), await page.locator('[data-bar="3"]').first().boundingBox()];
    if (!button || !tile) throw new Error('nothing there');
    expect(button.x).toBeGreaterThanOrEqual(tile.x - 1);
    expect(button.x + button.width).toBeLessThanOrEqual(tile.x + tile.width + 1);
    await onBar.click();
    await expect.poll(litBars).toEqual([4]);
  });

  test('repeats a passage between its cues, and slows down', async () => {
    await clip().getByRole('button', { name: '0:05 bar 4' }).click();
    await expect.poll(litBars).toEqual([4]);
    await clip().getByRole('button', { name: 'Loop the passage' }).click();
    const seen: number[] = [];
    const end = Date.now() + 4500;
    while (Date.now() < end) {
      seen.push(await time());
      await page.waitForTimeout(50);
    }
    expect(Math.min(...seen)).toBeGreaterThanOrEqual(4.9);
    expect(Math.max(...seen)).toBeLessThan(6.7);
    expect(seen.filter((value, index) => value < (seen[index - 1] ?? 0)).length).toBeGreaterThanOrEqual(2);
    await clip().getByRole('slider', { name: 'Speed' }).fill('50');
    const slow = await clip()
      .locator('audio')
      .evaluate((audio: HTMLAudioElement) => [audio.playbackRate, audio.preservesPitch]);
    expect(slow).toEqual([0.5, true]);
  });

  test('and the block’s player leave each other the floor', async () => {
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Pause' }).waitFor();
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect
      .poll(() =>
        clip()
          .locator('audio')
          .evaluate((audio: HTMLAudioElement) => audio.paused),
      )
      .toBe(true);
  });

  test('loads no script of its own before it is used', async () => {
    const loaded: string[] = [];
    page.on('request', (request) => loaded.push(request.url()));
    await page.reload();
    const size = await page.evaluate(async () => {
      const urls = performance.getEntriesByType('resource').map(({ name }) => name);
      return urls.filter((url) => /clip.*\.js$/i.test(url)).length;
    });
    expect(size).toBeLessThanOrEqual(2);
    expect(loaded.some((url) => url.endsWith('head.wav'))).toBe(false);
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await expect.poll(() => loaded.some((url) => url.endsWith('head.wav'))).toBe(true);
  });
});

describe('a clip that stands elsewhere', () => {
  test('says where it leads, and is asked for only by a press', async () => {
    const link = page.locator('#clip-1 a');
    expect(await link.textContent()).toContain(`Play this at ${new URL(elsewhere.address).host}`);
    expect(asked).toEqual([]);
    // Under the page's policy a recording of elsewhere may be played over https alone, as all addresses of today are.
    expect(await page.locator('meta[http-equiv="content-security-policy"]').getAttribute('content')).toContain(
      "media-src 'self' blob: https:",
    );
  });

  test('is framed where it is a page, after a press, with a name', async () => {
    const frames = page.locator('#clip-2 iframe');
    expect(await frames.count()).toBe(0);
    await page.locator('#clip-2 a').click();
    await frames.waitFor();
    expect(await frames.getAttribute('title')).toBe('A page');
    await expect.poll(() => page.frames().length).toBe(2);
    await expect.poll(() => page.frames()[1]?.title(), { timeout: 5000 }).toBe('Elsewhere');
  });
});

test('without scripts a clip plays with the browser’s controls, and its cues are words', async () => {
  await open(false);
  expect(await clip().locator('audio[controls]').isVisible()).toBe(true);
  expect(await clip().getByRole('button').count()).toBe(0);
  const cues = (await clip().locator('li').allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());
  expect(cues).toEqual(['0:01 bars 1 to 2', '0:03 bar 3', '0:05 bar 4']);
  expect(await page.getByRole('link', { name: 'bars 1 to 2, 0:01' }).getAttribute('href')).toBe('#clip-0');
  expect(await page.locator('#clip-3 video track').getAttribute('kind')).toBe('captions');
});
