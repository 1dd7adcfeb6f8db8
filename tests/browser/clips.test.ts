/** A teacher's recording on a lesson's page: with and without scripts, its cues, its loops, and one that stands elsewhere. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page, Route } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { buildInto } from '../../src/publish/build.ts';
import { engraverWith } from '../../src/publish/engraving/engrave.ts';
import { NO_PACK } from '../../src/publish/engraving/record-store.ts';
import { type Hosted, host } from '../../src/publish/host.ts';
import { filmOf } from './clips/film.ts';
import { median, pitchesOf } from './sound/aubio.ts';
import { openBrowser, wavOf, writeWav } from './sound/studio.ts';

const LESSON = `---
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
  film:
    src: media/film.webm
    title: The head, filmed
    captions: media/film.vtt
    cues:
      - { at: 0:00, bars: 1 }
      - { at: 0:01, until: 0:03, bars: 2-3 }
      - { at: 0:01, until: 0:02, bars: 4 }
      - { at: 0:03, bars: 4 }
---

\`\`\`tab
id: head
slot: 1/4

4 . -4 . | 5 . -5 . | 6 . -6 . | 7 . -7 . |]
\`\`\`

<Clip name="slowly" />

<Clip
  src="https://sound.example/talk.wav"
  title="A talk"
  captions="media/head.vtt"
  cues={[{ at: '0:03', bars: '2' }, { at: '0:40', bars: '3' }]}
/>

<Clip src="https://video.example/embed/3" title="A page" cues={[{ at: '1:00', bars: '3' }]} />

<Clip name="film" />

<Clip src="media/broken.mp4" title="A broken film" captions="media/head.vtt" />
`;

const VTT =
  'WEBVTT\n\n00:00:01.000 --> 00:00:03.000\nNow the <b>call</b> &amp; all.\n\n00:00:03.000 --> 00:00:05.000\nNow the answer.\n';

const FILM_VTT = 'WEBVTT\n\n00:00.000 --> 00:30.000\nWatch the hand.\n';

let folder: string;
let wav: Buffer;
let hosted: Hosted;
let browser: Browser;
let page: Page;
const asked: string[] = [];

beforeAll(async () => {
  // Eight seconds of a quiet tone.
  const tone = Float32Array.from({ length: 8 * 8000 }, (_, i) => 0.1 * Math.sin((2 * Math.PI * 330 * i) / 8000));
  wav = wavOf({ samples: tone, rate: 8000 });
  browser = await openBrowser();
  folder = mkdtempSync(join(tmpdir(), 'clips-'));
  const course = join(folder, 'course');
  for (const inner of ['lessons', 'media']) mkdirSync(join(course, inner), { recursive: true });
  writeFileSync(join(course, 'course.yaml'), 'title: A course\n');
  writeFileSync(join(course, 'lessons/head.mdx'), LESSON);
  writeFileSync(join(course, 'media/head.wav'), wav);
  writeFileSync(join(course, 'media/head.vtt'), VTT);
  writeFileSync(join(course, 'media/film.vtt'), FILM_VTT);
  writeFileSync(join(course, 'media/film.webm'), await filmOf(browser, 4));
  writeFileSync(join(course, 'media/broken.mp4'), 'no film');
  const loaded = loadCourse(course);
  const wrong = loaded.problems.filter(({ severity }) => severity === 'error');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join('\n'));
  const out = join(folder, 'site');
  mkdirSync(out);
  await buildInto(out, loaded, engraverWith(NO_PACK), { base: '/under/', origin: undefined, authoring: false });
  hosted = await host(out, '/under/', 0);
});
afterAll(async () => {
  await browser?.close();
  hosted?.server.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Answers as a server of recordings does, which can be asked for a part. */
function answerWithPart(route: Route): Promise<void> {
  asked.push(route.request().url());
  const from = Number(/bytes=(\d+)/.exec(route.request().headers()['range'] ?? '')?.[1] ?? 0);
  const range = `bytes ${from}-${wav.length - 1}/${wav.length}`;
  const headers = { 'content-type': 'audio/wav', 'accept-ranges': 'bytes', 'content-range': range };
  return route.fulfill({ status: 206, headers, body: wav.subarray(from) });
}

/** Before the page's scripts: how many locks keep the screen on. */
function countLocks(): void {
  const held = new Set<object>();
  const request = async (): Promise<EventTarget> => {
    const lock = new EventTarget();
    held.add(lock);
    return Object.assign(lock, { release: async () => held.delete(lock) });
  };
  Object.defineProperty(navigator, 'wakeLock', { value: { request } });
  Object.assign(window, { locks: () => held.size });
}
const locks = () => page.evaluate(() => (window as unknown as { locks: () => number }).locks());

async function open(scripts = true): Promise<void> {
  await page?.context().close();
  const context = await browser.newContext({ javaScriptEnabled: scripts, viewport: { width: 1000, height: 1400 } });
  page = await context.newPage();
  await page.route('https://video.example/**', (route) =>
    route.fulfill({ contentType: 'text/html', body: '<title>Elsewhere</title><p>A page of elsewhere.' }),
  );
  await page.route('https://sound.example/**', answerWithPart);
  await page.addInitScript(countLocks);
  page.on('pageerror', (error) => {
    throw error;
  });
  asked.length = 0;
  await page.goto(`${hosted.address}lessons/head/`);
}
beforeEach(() => open());

const clip = () => page.locator('#clip-0');
const film = () => page.locator('#clip-3');
const filmIs = (what: 'paused' | 'currentTime') =>
  film()
    .locator('video')
    .evaluate((video: HTMLVideoElement, what) => video[what], what);
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
    await expect.poll(() => clip().locator('.clip-words').textContent()).toBe('Now the call & all.');
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
    const onBar = page.getByRole('button', { name: 'Play “The head, slowly” from 0:05' });
    const [button, tile] = [await onBar.boundingBox(), await page.locator('[data-bar="3"]').first().boundingBox()];
    if (!button || !tile) throw new Error('nothing there');
    // Above its bar, where it covers no music.
    expect(button.y + button.height).toBeLessThanOrEqual(tile.y + 1);
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

  test('repeats the passage that was sought by hand', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await clip().getByRole('button', { name: 'Loop the passage' }).click();
    await clip()
      .locator('audio')
      .evaluate((audio: HTMLAudioElement) => {
        audio.currentTime = 3.5;
      });
    await expect.poll(time, { timeout: 4000 }).toBeGreaterThan(4.6);
    await expect.poll(time, { timeout: 4000 }).toBeLessThan(3.5);
    expect(await litBars()).toEqual([3]);
  });

  test('shows the speed that was set with the browser’s own controls', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    const speed = clip().getByRole('slider', { name: 'Speed' });
    await speed.waitFor();
    await clip()
      .locator('audio')
      .evaluate((audio: HTMLAudioElement) => {
        audio.playbackRate = 0.75;
      });
    await expect.poll(() => speed.inputValue()).toBe('75');
    expect(await clip().locator('output').textContent()).toBe('75 %');
  });

  test('keeps its pitch at half its speed, by aubio', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await clip().getByRole('slider', { name: 'Speed' }).fill('50');
    const heard = await clip()
      .locator('audio')
      .evaluate(async (audio: HTMLAudioElement) => {
        const context = new AudioContext();
        const samples: number[] = [];
        const recorder = context.createScriptProcessor(4096, 1, 1);
        recorder.onaudioprocess = ({ inputBuffer }) => samples.push(...inputBuffer.getChannelData(0));
        context.createMediaElementSource(audio).connect(recorder).connect(context.destination);
        const before = audio.currentTime;
        await new Promise((resolve) => setTimeout(resolve, 2000));
        return { samples, rate: context.sampleRate, played: audio.currentTime - before };
      });
    // Half of two seconds.
    expect(Math.abs(heard.played - 1)).toBeLessThan(0.2);
    const pitches = pitchesOf(writeWav({ samples: Float32Array.from(heard.samples), rate: heard.rate }));
    expect(Math.abs(1200 * Math.log2(median(pitches.map(({ hertz }) => hertz)) / 330))).toBeLessThan(5);
  });

  test('keeps the screen on while it plays, also where it takes over from another or from a block', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await expect.poll(locks).toBe(1);
    await film().getByRole('button', { name: '0:00 bar 1' }).click();
    await expect.poll(() => filmIs('paused')).toBe(false);
    await page.waitForTimeout(200);
    expect(await locks()).toBe(1);
    await page.getByRole('button', { name: 'Hear it' }).click();
    await expect.poll(() => filmIs('paused')).toBe(true);
    await page.waitForTimeout(200);
    expect(await locks()).toBe(1);
    await page.getByRole('button', { name: 'Pause' }).click();
    await expect.poll(locks).toBe(0);
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
    // What plays now lights its own bars.
    expect(await litBars()).toEqual([]);
  });

  test('lights no bars by a seek that arrives when another has the floor', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await film().getByRole('button', { name: '0:03 bar 4' }).first().click();
    await expect.poll(litBars).toEqual([4]);
    await clip()
      .locator('audio')
      .evaluate(async (audio: HTMLAudioElement) => {
        audio.currentTime = 1.2;
        await new Promise((resolve) => audio.addEventListener('seeked', resolve, { once: true }));
      });
    expect(await litBars()).toEqual([4]);
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

describe('a film of the course', () => {
  const cue = (name: string) => film().getByRole('button', { name }).first();

  test('plays with its captions, and lights up the bars of all cues that are on', async () => {
    await cue('0:00 bar 1').click();
    await expect.poll(litBars).toEqual([1]);
    const seen = await film()
      .locator('video')
      .evaluate((video: HTMLVideoElement) => [video.videoWidth, video.textTracks[0]?.mode]);
    expect(seen).toEqual([160, 'showing']);
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2, 3, 4]);
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2, 3]);
    expect(
      await film()
        .locator('video')
        .evaluate((video: HTMLVideoElement) => (video.textTracks[0]?.activeCues?.[0] as VTTCue | undefined)?.text),
    ).toBe('Watch the hand.');
  });

  test('has its cues on the bars beside those of other clips', async () => {
    await clip().getByRole('button', { name: '0:01 bars 1 to 2' }).click();
    await cue('0:00 bar 1').click();
    const onBar = page.locator('.bar-cues button');
    await expect.poll(() => onBar.allTextContents()).toEqual(['0:01', '0:00', '0:01', '0:03', '0:05', '0:01', '0:03']);
    const boxes = await onBar.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON() as DOMRect));
    for (const [index, one] of boxes.entries()) {
      for (const other of boxes.slice(index + 1)) {
        expect(one.right <= other.left || other.right <= one.left || one.bottom <= other.top).toBe(true);
      }
    }
    await page.getByRole('button', { name: 'Play “The head, slowly” from 0:03' }).click();
    await expect.poll(litBars).toEqual([3]);
  });

  test('repeats a passage that ends with the film', async () => {
    await cue('0:03 bar 4').click();
    await film().getByRole('button', { name: 'Loop the passage' }).click();
    const rounds = await film()
      .locator('video')
      .evaluate(async (video: HTMLVideoElement) => {
        let ends = 0;
        video.addEventListener('ended', () => ends++);
        await new Promise((resolve) => setTimeout(resolve, 3500));
        return ends;
      });
    expect(rounds).toBeGreaterThanOrEqual(2);
    expect(await filmIs('currentTime')).toBeGreaterThanOrEqual(2.9);
    expect(await filmIs('paused')).toBe(false);
  });

  test('that cannot be played is offered by itself', async () => {
    const broken = page.locator('#clip-4');
    await broken.locator('video').evaluate((video: HTMLVideoElement) => void video.play().catch(() => {}));
    await broken.getByRole('link', { name: 'Open it by itself' }).waitFor();
    expect(await broken.locator('.clip-message').textContent()).toContain('cannot be played here');
    expect(await broken.getByRole('link').getAttribute('href')).toContain('/under/media/broken.mp4');
  });
});

describe('a clip that stands elsewhere', () => {
  test('says where it leads, and is asked for only by a press', async () => {
    const link = page.locator('#clip-1 a[data-away]');
    expect(await link.textContent()).toContain('Play this at sound.example');
    expect(asked).toEqual([]);
    await link.click();
    const audio = page.locator('#clip-1 audio');
    await expect.poll(() => audio.evaluate((one: HTMLAudioElement) => one.currentTime)).toBeGreaterThan(0);
    expect(asked.length).toBeGreaterThan(0);
    expect(await audio.evaluate((one) => one === document.activeElement)).toBe(true);
  });

  test('has its captions and its cues, as one of the course has', async () => {
    await page.locator('#clip-1').getByRole('button', { name: '0:03 bar 2' }).click();
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2]);
    await expect.poll(() => page.locator('#clip-1 .clip-words').textContent()).toBe('Now the answer.');
  });

  test('says so where a cue lies after its end, which nobody could know before', async () => {
    const talk = page.locator('#clip-1');
    await talk.getByRole('button', { name: '0:40 bar 3' }).click();
    await expect
      .poll(() => talk.locator('.clip-message').textContent(), { timeout: 5000 })
      .toBe('The recording ends before 0:40.');
    expect(await talk.locator('audio').evaluate((audio: HTMLAudioElement) => audio.paused)).toBe(true);
  });

  test('is a link like any other to whoever opens it beside the page', async () => {
    const beside = page.context().waitForEvent('page');
    await page.locator('#clip-2 a').click({ modifiers: ['Control'] });
    await (await beside).close();
    expect(await page.locator('#clip-2 iframe').count()).toBe(0);
  });

  test('is framed where it is a page, after a press, with a name', async () => {
    const frames = page.locator('#clip-2 iframe');
    expect(await frames.count()).toBe(0);
    await page.locator('#clip-2 a').click();
    await frames.waitFor();
    expect(await frames.getAttribute('title')).toBe('A page');
    await expect.poll(() => page.frames().length).toBe(2);
    await expect.poll(() => page.frames()[1]?.title(), { timeout: 5000 }).toBe('Elsewhere');
    // Nobody can tell such a page where to begin: its cue is only told, and the link to it leads to the clip.
    expect(await page.locator('#clip-2 button').count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Play “A page”' }).count()).toBe(0);
    await page.getByRole('link', { name: 'bar 3, 1:00' }).click();
    expect(page.url()).toMatch(/#clip-2$/);
  });
});

test('on paper a clip says what it is, where it is, and when its bars are played', async () => {
  await page.emulateMedia({ media: 'print' });
  const printed = async (index: number) =>
    // biome-ignore lint/performance/useDomNodeTextContent: what is hidden on paper is not to be read.
    (await page.locator(`#clip-${index}`).innerText()).replace(/\s+/g, ' ').trim();
  expect(await printed(0)).toBe(
    'The head, slowly 0:01 bars 1 to 2 0:03 bar 3 0:05 bar 4 The recording: /under/media/head.wav',
  );
  expect(await printed(1)).toBe('A talk 0:03 bar 2 0:40 bar 3 The recording: https://sound.example/talk.wav');
});

test('beside a block each clip that plays it is named', async () => {
  const named = (await page.locator('.block-cues').allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());
  expect(named[1]).toBe('In “A talk”: bar 2, 0:03; bar 3, 0:40');
  expect(named).toHaveLength(4);
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
