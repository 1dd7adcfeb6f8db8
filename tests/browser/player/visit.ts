/** The page of two blocks that a student visits, with what it sounds and asks of the browser watched. */
import type { Locator, Page } from 'playwright-core';
import { serve } from '../sound/browser-sound.ts';
import { type Files, lessonPage } from '../sound/lesson-page.ts';
import { withBrowser } from '../with-browser.ts';

const CHORUS = `harp: A
position: 2
tempo: 120
feel: shuffle
form: twelve-bar

part: Chorus
-3'> -3 = . 2 -2 -1 = | -3'> -3 = . 2 -2 -1 = | -2 -3' -3 -4 {-4' -4 5} -4 -3 -2 | -2 = = = .4 |
4 -3''> -3 4 -4[shake 5] = = = | . 4 -4[tongue slap] -4[hand] -4[vibrato] = = = |
part: Turn
-2 -3' -3 -4 5 -4 -3' -2 | -(1 2 3) = = = .4 | -4 = -4'> -4 5 6 5 -4 | 4 -4 5 6 -6 6 5 4 |
-2 -3' -3 -4 5 -4 -3' -2 | -2 = = = = = = = |]
`;
const SHORT = 'harp: C\ntempo: 150\nslot: 1/4\n4 5 6 7 | -4 -5 -6 -7\n';

/** Before the page's own scripts: everything it sounds goes through a meter, and what it asks of the browser is kept. */
function watch(): void {
  const seen = { contexts: [] as string[], wakes: 0, released: 0, scrolls: [] as ScrollToOptions[] };
  const taps = new WeakMap<BaseAudioContext, GainNode>();
  const meters: AnalyserNode[] = [];
  const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'destination')?.get;
  Object.defineProperty(AudioContext.prototype, 'destination', {
    get(this: AudioContext) {
      let tap = taps.get(this);
      if (!tap) {
        tap = this.createGain();
        const meter = this.createAnalyser();
        meter.fftSize = 32768;
        tap.connect(meter).connect(real?.call(this) as AudioNode);
        meters.push(meter);
        taps.set(this, tap);
      }
      return tap;
    },
  });
  const Real = AudioContext;
  globalThis.AudioContext = class extends Real {
    constructor(options?: AudioContextOptions) {
      seen.contexts.push(window.event?.type ?? 'no event');
      super(options);
    }
  };
  const scroll = window.scrollBy.bind(window);
  window.scrollBy = ((options: ScrollToOptions) => {
    seen.scrolls.push(options);
    scroll(options);
  }) as typeof window.scrollBy;
  Object.defineProperty(navigator, 'wakeLock', {
    value: {
      request: async () => {
        seen.wakes++;
        return Object.assign(new EventTarget(), { release: async () => void seen.released++ });
      },
    },
  });
  const level = (): number => {
    const samples = new Float32Array(32768);
    return Math.max(
      0,
      ...meters.map((meter) => {
        meter.getFloatTimeDomainData(samples);
        return samples.reduce((peak, sample) => Math.max(peak, Math.abs(sample)), 0);
      }),
    );
  };
  Object.assign(window, { seen, level });
}
type Watched = {
  seen: { contexts: string[]; wakes: number; released: number; scrolls: ScrollToOptions[] };
  level: () => number;
};
export const seen = (page: Page) => page.evaluate(() => (window as unknown as Watched).seen);
/** The loudest sample of the last two thirds of a second. */
export const level = (page: Page) => page.evaluate(() => (window as unknown as Watched).level());

interface Visit {
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  readonly calm?: boolean;
  readonly scripts?: boolean;
  readonly before?: () => void;
}

interface Visited {
  readonly page: Page;
  /** The first block of the page. */
  readonly block: Locator;
  /** A control of that block. */
  readonly control: (role: Role, name: string | RegExp) => Locator;
  readonly hear: () => Promise<void>;
  /** Opens the sheet of further controls, or closes it. */
  readonly more: () => Promise<void>;
  /** Without the count, sound and cursor come at once. */
  readonly hearAtOnce: () => Promise<void>;
  /** Paths that were asked for. */
  readonly loaded: readonly string[];
}
type Role = 'button' | 'slider' | 'checkbox' | 'spinbutton' | 'combobox';

interface Fixtures {
  readonly files: Files;
  readonly address: string;
  readonly visit: (visit?: Visit) => Promise<Visited>;
}

export const test = withBrowser.extend<Fixtures>({
  files: [
    // biome-ignore lint/correctness/noEmptyPattern: the runner reads the fixtures that one needs from its first argument.
    async ({}, use) => {
      await use(await lessonPage([CHORUS, SHORT]));
    },
    { scope: 'file' },
  ],
  address: [
    async ({ files }, use) => {
      const { address, close } = await serve(files);
      await use(address);
      close();
    },
    { scope: 'file' },
  ],
  visit: async ({ newPage, address }, use) => {
    await use(async ({ width = 1200, height = 900, touch = false, calm = false, scripts = true, before } = {}) => {
      const page = await newPage({
        viewport: { width, height },
        hasTouch: touch,
        reducedMotion: calm ? 'reduce' : 'no-preference',
        javaScriptEnabled: scripts,
      });
      const loaded: string[] = [];
      page.on('request', (request) => loaded.push(new URL(request.url()).pathname));
      if (scripts) await page.addInitScript(watch);
      if (before) await page.addInitScript(before);
      await page.goto(address);
      const block = page.locator('[data-block="0"]');
      const control: Visited['control'] = (role, name) =>
        block.getByRole(role, { name, exact: typeof name === 'string' });
      const hear = () => block.getByRole('button', { name: 'Hear it' }).click();
      const more = () => control('button', 'More').click();
      const hearAtOnce = async (): Promise<void> => {
        await hear();
        await control('button', 'Stop').click();
        await more();
        await control('checkbox', 'Count-in').uncheck();
        await more();
        await control('button', 'Play').click();
      };
      return { page, block, control, hear, more, hearAtOnce, loaded };
    });
  },
});

/** The name of the button that loops, with the bars it loops. */
export const LOOP = /^Loop(:|$)/;

export const nowBars = (page: Page) =>
  page.evaluate(() => [
    ...new Set([...document.querySelectorAll<SVGElement>('.tile.now')].map((tile) => Number(tile.dataset['bar']))),
  ]);

/** The bars on which the cursor was seen within some seconds. */
export async function barsPlayed(page: Page, seconds: number): Promise<number[]> {
  const bars = new Set<number>();
  const end = Date.now() + seconds * 1000;
  while (Date.now() < end) {
    for (const bar of await nowBars(page)) bars.add(bar);
    await page.waitForTimeout(60);
  }
  return [...bars].sort((a, b) => a - b);
}
