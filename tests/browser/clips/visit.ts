/** A lesson with a teacher's recordings, of the course and from elsewhere, opened in a browser. */
import type { Locator, Page, Route } from 'playwright-core';
import { write } from '../../course/some-course.ts';
import { type SharedSite, sharedSite } from '../shared-site.ts';
import { wavOf } from '../sound/browser-sound.ts';
import { withBrowser } from '../with-browser.ts';
import { filmOf } from './film.ts';

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

/** Eight seconds of a quiet tone. */
const TONE = Float32Array.from({ length: 8 * 8000 }, (_, i) => 0.1 * Math.sin((2 * Math.PI * 330 * i) / 8000));
const WAV = wavOf({ samples: TONE, rate: 8000 });

/** Answers as a server of recordings does, which can be asked for a part. */
function answerWithPart(route: Route): Promise<void> {
  const from = Number(/bytes=(\d+)/.exec(route.request().headers()['range'] ?? '')?.[1] ?? 0);
  const range = `bytes ${from}-${WAV.length - 1}/${WAV.length}`;
  const headers = { 'content-type': 'audio/wav', 'accept-ranges': 'bytes', 'content-range': range };
  return route.fulfill({ status: 206, headers, body: WAV.subarray(from) });
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

/** One recording of the page. */
interface Clip {
  readonly element: Locator;
  readonly cue: (name: string) => Locator;
  readonly button: (name: string) => Locator;
  /** Does something with its sound or film, or asks something of it. */
  readonly media: <Found>(ask: (media: HTMLVideoElement) => Found | Promise<Found>) => Promise<Found>;
}

interface Visited {
  readonly page: Page;
  /** The recording of the course, and the film. */
  readonly clip: Clip;
  readonly film: Clip;
  /** How many locks keep the screen on. */
  readonly locks: () => Promise<number>;
  /** Numbers of the bars that are lit up. */
  readonly litBars: () => Promise<number[]>;
  /** Addresses that were asked for outside the course. */
  readonly asked: readonly string[];
}

interface Fixtures {
  readonly site: SharedSite;
  /** Opens the lesson. */
  readonly visit: (options?: { readonly scripts?: boolean }) => Promise<Visited>;
}

export const test = withBrowser.extend<Fixtures>({
  site: [
    async ({ browser }, use) => {
      const site = await sharedSite('clips', '/under/', async (folder) => {
        write(folder, 'course.yaml', 'title: A course\n');
        write(folder, 'lessons/head.mdx', LESSON);
        write(folder, 'media/head.wav', WAV);
        write(folder, 'media/head.vtt', VTT);
        write(folder, 'media/film.vtt', FILM_VTT);
        write(folder, 'media/film.webm', await filmOf(browser, 4));
        write(folder, 'media/broken.mp4', 'no film');
      });
      await use(site);
      site.close();
    },
    { scope: 'file' },
  ],
  visit: async ({ newPage, site }, use) => {
    await use(async ({ scripts = true } = {}) => {
      const page = await newPage({ javaScriptEnabled: scripts, viewport: { width: 1000, height: 1400 } });
      const asked: string[] = [];
      await page.route('https://video.example/**', (route) =>
        route.fulfill({ contentType: 'text/html', body: '<title>Elsewhere</title><p>A page of elsewhere.' }),
      );
      await page.route('https://sound.example/**', (route) => {
        asked.push(route.request().url());
        return answerWithPart(route);
      });
      await page.addInitScript(countLocks);
      await page.goto(`${site.address}lessons/head/`);
      return {
        page,
        clip: clipAt(page, 0),
        film: clipAt(page, 3),
        locks: () => page.evaluate(() => (window as unknown as { locks: () => number }).locks()),
        litBars: () =>
          page
            .locator('.tile.clip-playing')
            .evaluateAll((tiles) => tiles.map((tile) => Number((tile as HTMLElement).dataset['bar']) + 1)),
        asked,
      };
    });
  },
});

function clipAt(page: Page, index: number): Clip {
  const element = page.locator(`#clip-${index}`);
  const button = (name: string): Locator => element.getByRole('button', { name });
  return {
    element,
    button,
    cue: (name) => button(name).first(),
    media: (ask) => element.locator('audio, video').evaluate(ask),
  };
}
