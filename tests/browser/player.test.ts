/** The player of a block, driven as a student drives it: with a mouse, a finger, a keyboard, and without sound. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { type Files, lessonPage } from './sound/lesson-page.ts';
import { openBrowser, type Served, serve } from './sound/studio.ts';

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
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

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
  /** The loudest sample of the last two thirds of a second. */
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
const seen = (page: Page) => page.evaluate(() => (window as unknown as Watched).seen);
const level = (page: Page) => page.evaluate(() => (window as unknown as Watched).level());

let browser: Browser;
let served: Served;
let files: Files;
const contexts: BrowserContext[] = [];

beforeAll(async () => {
  files = await lessonPage([CHORUS, SHORT]);
  served = await serve(files);
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  served?.close();
});
afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
});

interface Visit {
  readonly width?: number;
  readonly height?: number;
  readonly touch?: boolean;
  readonly calm?: boolean;
  readonly scripts?: boolean;
  readonly before?: () => void;
}

async function visit({ width = 1200, height = 900, touch = false, calm = false, scripts = true, before }: Visit = {}) {
  const context = await browser.newContext({
    viewport: { width, height },
    hasTouch: touch,
    reducedMotion: calm ? 'reduce' : 'no-preference',
    javaScriptEnabled: scripts,
  });
  contexts.push(context);
  const page = await context.newPage();
  page.on('pageerror', (error) => {
    throw error;
  });
  const loaded: string[] = [];
  page.on('request', (request) => loaded.push(new URL(request.url()).pathname));
  if (scripts) await page.addInitScript(watch);
  if (before) await page.addInitScript(before);
  await page.goto(served.address);
  const block = page.locator('[data-block="0"]');
  const control = (role: 'button' | 'slider' | 'checkbox' | 'spinbutton' | 'combobox', name: string | RegExp) =>
    block.getByRole(role, { name, exact: typeof name === 'string' });
  const hear = () => block.getByRole('button', { name: 'Hear it' }).click();
  /** Without the count, sound and cursor come at once. */
  const hearAtOnce = async (): Promise<void> => {
    await hear();
    await control('button', 'Stop').click();
    await block.getByText('Practice and band').click();
    await control('checkbox', 'Count-in').uncheck();
    await control('button', 'Play').click();
  };
  return { page, block, control, hear, hearAtOnce, loaded };
}

const nowBars = (page: Page) =>
  page.evaluate(() => [
    ...new Set([...document.querySelectorAll<SVGElement>('.tile.now')].map((tile) => Number(tile.dataset['bar']))),
  ]);

/** The bars on which the cursor was seen within some seconds. */
async function barsPlayed(page: Page, seconds: number): Promise<number[]> {
  const bars = new Set<number>();
  const end = Date.now() + seconds * 1000;
  while (Date.now() < end) {
    for (const bar of await nowBars(page)) bars.add(bar);
    await page.waitForTimeout(60);
  }
  return [...bars].sort((a, b) => a - b);
}

describe('before sound is asked for', () => {
  test('a page loads a button and no more, and with the player stays under 25 KB', async () => {
    const { page, hear, loaded } = await visit();
    const weight = (paths: readonly string[]): number =>
      paths
        .filter((path) => path.endsWith('.js'))
        .reduce((sum, path) => sum + gzipSync(files[path]?.body ?? '').length, 0);
    expect(weight(loaded)).toBeLessThan(1024);
    expect((await seen(page)).contexts).toEqual([]);
    await hear();
    await page.locator('.player').waitFor();
    expect(weight(loaded)).toBeLessThan(25 * 1024);
    expect(weight(loaded)).toBeGreaterThan(5 * 1024);
  });

  test('without scripts no control is shown', async () => {
    const { page, block } = await visit({ scripts: false });
    expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
    expect(await block.getByText('Hear it').isVisible()).toBe(false);
    expect(await page.locator('.tile').first().isVisible()).toBe(true);
  });

  test('the sound is made in the handler of the click itself', async () => {
    const { page, hear } = await visit();
    await hear();
    await page.locator('.player').waitFor();
    expect((await seen(page)).contexts).toEqual(['click']);
  });
});

describe('playing', () => {
  test('counts in, sounds, and moves over staff, lanes and chord together', async () => {
    const { page, block, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    // The clicks of the count are heard though the metronome is off.
    await expect.poll(() => level(page)).toBeGreaterThan(0.05);
    expect(await nowBars(page)).toEqual([]);
    await block.locator('.tile.now').first().waitFor();
    expect(await level(page)).toBeGreaterThan(0.05);
    const marked = await block.evaluate((element) => {
      const box = (one: Element | null | undefined): DOMRect => one?.getBoundingClientRect() ?? new DOMRect();
      const covers = (over: DOMRect, one: DOMRect): boolean =>
        one.width > 0 &&
        over.left <= one.left &&
        over.right >= one.right &&
        over.top <= one.top &&
        over.bottom >= one.bottom;
      const event = element.querySelector('[data-event].now');
      const band = box(element.querySelector('.play-band'));
      const line = box(element.querySelector('.play-line'));
      const symbol = element.querySelector('[data-chord].now');
      return {
        staff: covers(band, box(event?.querySelector('use[href^="#g-"]'))),
        lane: covers(band, box(event?.querySelector('text.n'))),
        events: element.querySelectorAll('[data-event].now').length,
        chord: symbol?.textContent,
        underlined: [line.left - box(symbol).left, line.right - box(symbol).right, line.top - box(symbol).bottom],
      };
    });
    expect(marked).toMatchObject({ staff: true, lane: true, events: 1 });
    expect(marked.chord).toContain('E7');
    for (const off of marked.underlined) expect(Math.abs(off)).toBeLessThanOrEqual(2);
  });

  test('pauses with the place kept, goes on, stops, and is silent then', async () => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await page.waitForTimeout(2500);
    await control('button', 'Pause').click();
    const [paused] = await nowBars(page);
    expect(paused).toBeGreaterThanOrEqual(1);
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    await control('button', 'Play').click();
    await page.waitForTimeout(300);
    expect((await nowBars(page))[0]).toBe(paused);
    await control('button', 'Stop').click();
    expect(await nowBars(page)).toEqual([]);
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    for (const mark of ['.play-band', '.play-line']) expect(await block.locator(mark).isHidden()).toBe(true);
  });

  test('ends by itself after the last bar', async () => {
    const { page } = await visit();
    const second = page.locator('[data-block="1"]');
    await second.getByRole('button', { name: 'Hear it' }).click();
    await second.locator('.tile.now').first().waitFor();
    await second.getByRole('button', { name: 'Play', exact: true }).waitFor({ timeout: 6000 });
    expect(await nowBars(page)).toEqual([]);
  });

  test('keeps the screen awake while it plays, and no longer', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 0 });
    await page.getByText('Practice and band').first().click();
    await control('combobox', 'Drone').selectOption('E, the key note');
    await control('button', 'Pause').click();
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 0 });
    await control('combobox', 'Drone').selectOption('none');
    expect(await seen(page)).toMatchObject({ wakes: 1, released: 1 });
  });

  test('shows where it goes on while it is paused, through other bars, another width and other tiles', async () => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await page.waitForTimeout(1200);
    await control('button', 'Pause').click();
    /** How far the band's sides are from the note it marks. */
    const off = () =>
      block.evaluate((element) => {
        const band = element.querySelector('.play-band')?.getBoundingClientRect();
        const note = element.querySelector('[data-event].now')?.getBoundingClientRect();
        return band && note ? [note.left - band.left, band.right - note.right].map(Math.round) : [];
      });
    expect(await off()).toEqual([4, 4]);
    await page.setViewportSize({ width: 700, height: 900 });
    await expect.poll(off).toEqual([4, 4]);
    await control('combobox', 'From').selectOption('bar 7');
    expect(await nowBars(page)).toEqual([6]);
    await block.evaluate((element) => {
      const tile = element.querySelector('[data-bar="6"]');
      tile?.classList.remove('now');
      tile?.replaceWith(tile.cloneNode(true));
    });
    await expect.poll(() => nowBars(page)).toEqual([6]);
    await expect.poll(off).toEqual([4, 4]);
  });

  test('is left to one block at a time', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    await page.locator('[data-block="1"]').getByRole('button', { name: 'Hear it' }).click();
    await control('button', 'Play').waitFor();
    expect(await page.locator('[data-block="1"]').getByRole('button', { name: 'Pause' }).count()).toBe(1);
  });

  test('pauses when the page is no longer looked at, and no drone goes on', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await control('button', 'Pause').waitFor();
    await page.getByText('Practice and band').first().click();
    await control('combobox', 'Drone').selectOption('E, the key note');
    await page.evaluate(() => {
      Object.defineProperty(document, 'hidden', { value: true, configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await control('button', 'Play').waitFor();
    expect(await control('combobox', 'Drone').inputValue()).toBe('');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });

  test('tells a screen reader what happens in a sentence or two, not every note', async () => {
    const { page, block, hearAtOnce } = await visit();
    await hearAtOnce();
    const heard = await page.evaluate(
      () =>
        new Promise<string[]>((resolve) => {
          const region = document.querySelector('[aria-live="polite"]') as HTMLElement;
          const said: string[] = [];
          new MutationObserver(() => said.push(region.textContent ?? '')).observe(region, { childList: true });
          setTimeout(() => resolve(said), 6000);
        }),
    );
    expect(heard).toEqual(['Playing at 120 a minute.']);
    expect(await block.locator('[aria-live]').count()).toBe(1);
  });
});

describe('a loop', () => {
  test('is chosen by a press, stretched and narrowed by others, and let go by the last', async () => {
    const { page, block, control, hear } = await visit();
    await hear();
    await control('button', 'Stop').click();
    const bar = (number: number) => control('button', new RegExp(`^Loop bar ${number}\\b`));
    const chosen = () =>
      block
        .locator('.bar-picks button[aria-pressed="true"]')
        .evaluateAll((picks) => picks.map((pick) => Number((pick as HTMLElement).dataset['pick']) + 1));
    await bar(3).click();
    expect(await chosen()).toEqual([3]);
    expect(await control('button', 'Loop').getAttribute('aria-pressed')).toBe('true');
    await bar(5).click();
    expect(await chosen()).toEqual([3, 4, 5]);
    expect(await control('combobox', 'to').inputValue()).toBe('4');
    await bar(4).click();
    expect(await chosen()).toEqual([4]);
    await bar(4).click();
    expect(await chosen()).toEqual([]);
    expect(await control('button', 'Loop').getAttribute('aria-pressed')).toBe('false');
    await page.waitForTimeout(900);
    expect(await block.locator('[aria-live]').textContent()).toBe('The whole block.');
  });

  test('is chosen by a drag, and plays these bars and no others, round after round', async () => {
    const { page, block, control, hearAtOnce } = await visit({ height: 1800 });
    await hearAtOnce();
    const from = await control('button', /^Loop bar 2\b/).boundingBox();
    const to = await control('button', /^Loop bar 3\b/).boundingBox();
    if (!from || !to) throw new Error('no tiles');
    await page.mouse.move(from.x + 40, from.y + 60);
    await page.mouse.down();
    await page.mouse.move(to.x + 10, to.y + 70, { steps: 5 });
    await page.mouse.move(to.x + 60, to.y + 70, { steps: 5 });
    await page.mouse.up();
    expect(await block.locator('.bar-picks .chosen').count()).toBe(2);
    expect(await barsPlayed(page, 9)).toEqual([1, 2]);
  });

  test('is taken on once a drag is over, after which a key chooses as ever', async () => {
    const { page, block, control, hear } = await visit({ height: 1800 });
    await hear();
    await control('button', 'Stop').click();
    const from = await control('button', /^Loop bar 2\b/).boundingBox();
    const to = await control('button', /^Loop bar 3\b/).boundingBox();
    if (!from || !to) throw new Error('no tiles');
    await page.mouse.move(from.x + 20, from.y + 40);
    await page.mouse.down();
    await page.mouse.move(to.x + 20, to.y + 40, { steps: 4 });
    expect(await block.locator('.bar-picks .chosen').count()).toBe(2);
    expect(await control('button', 'Loop').getAttribute('aria-pressed')).toBe('false');
    await page.mouse.up();
    expect(await control('button', 'Loop').getAttribute('aria-pressed')).toBe('true');
    await control('button', /^Loop bar 1\b/).focus();
    await page.keyboard.press('Enter');
    expect(await block.locator('.bar-picks .chosen').count()).toBe(3);
  });

  test('is chosen with the keyboard alone', async () => {
    const { page, block, control } = await visit();
    await block.getByRole('button', { name: 'Hear it' }).focus();
    await page.keyboard.press('Enter');
    await control('button', 'Pause').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    await page.keyboard.press('Space');
    await control('button', 'Play').waitFor();
    await page.keyboard.press('Shift+Tab');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(/^Loop bar 1\b/);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    const picked = () =>
      block.locator('.bar-picks .chosen').evaluateAll((all) => all.map((one) => (one as HTMLElement).dataset['pick']));
    expect(await picked()).toEqual(['1', '2', '3']);
    await page.keyboard.press('Escape');
    expect(await picked()).toEqual([]);
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    expect(await picked()).toEqual(['11']);
    // Every bar stands clear of the row of buttons at the foot of the screen.
    await page.setViewportSize({ width: 700, height: 500 });
    await page.keyboard.press('Home');
    for (let bar = 0; bar < 12; bar++) {
      const [pick, main] = await Promise.all([
        block.locator(`button[data-pick="${bar}"]`).boundingBox(),
        block.locator('.player-main').boundingBox(),
      ]);
      expect((pick?.y ?? 0) + (pick?.height ?? 0)).toBeLessThanOrEqual(main?.y ?? 0);
      await page.keyboard.press('ArrowRight');
    }
    const outlined = await page.evaluate(() => getComputedStyle(document.activeElement as Element).outlineStyle);
    expect(outlined).not.toBe('none');
  });

  test('is a part by its name, or from one bar to another', async () => {
    const { block, control, hear } = await visit();
    await hear();
    const picked = () => block.locator('.bar-picks .chosen').count();
    await control('combobox', 'Part').selectOption('Turn');
    expect(await picked()).toBe(6);
    await control('combobox', 'From').selectOption('bar 2');
    await control('combobox', 'to').selectOption('bar 5');
    expect(await picked()).toBe(4);
    expect(await control('combobox', 'Part').inputValue()).toBe('');
    await control('button', 'All bars').click();
    expect(await picked()).toBe(0);
  });

  test('speeds up by a step each round to its goal, and says where it is', async () => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await control('button', /^Loop bar 4\b/).click();
    await control('spinbutton', 'by').fill('30');
    await control('spinbutton', 'to').fill('170');
    await control('button', 'Loop').click();
    await control('checkbox', 'Speed up each round').check();
    expect(await control('button', 'Loop').getAttribute('aria-pressed')).toBe('true');
    const told = block.locator('.player-round');
    await expect.poll(() => told.textContent(), { timeout: 8000 }).toBe('Round 2, 150 a minute');
    await expect.poll(() => told.textContent(), { timeout: 8000 }).toBe('Round 3, 170 a minute');
    await expect.poll(() => told.textContent(), { timeout: 8000 }).toBe('Round 4, 170 a minute');
    await page.waitForTimeout(800);
    expect(await block.locator('[aria-live]').textContent()).toMatch(/^Round \d, 170 a minute\.$/);
  });

  test('leaves a bar free to answer after each it plays', async () => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await control('checkbox', /^One bar at a time/).check();
    await control('button', /^Loop bar 4\b/).click();
    await block.locator('.tile.answer').waitFor();
    expect(await nowBars(page)).toEqual([3]);
    await block.locator('.tile.now:not(.answer)').waitFor();
  });
});

describe('the controls', () => {
  test('set the tempo in percent and in beats, from 30 to 150 percent', async () => {
    const { control, hear, page } = await visit();
    await hear();
    const percent = control('slider', 'Tempo');
    const beats = control('spinbutton', 'quarters a minute');
    await percent.focus();
    await page.keyboard.press('ArrowRight');
    expect(await beats.inputValue()).toBe('121');
    expect(await percent.getAttribute('aria-valuetext')).toBe('101 percent, 121 a minute');
    await page.keyboard.press('Home');
    expect(await beats.inputValue()).toBe('36');
    await page.keyboard.press('End');
    expect(await beats.inputValue()).toBe('180');
    await beats.fill('60');
    await beats.press('Enter');
    expect(await percent.inputValue()).toBe('50');
    for (const [typed, taken] of [
      ['9999', '180'],
      ['0', '36'],
      ['99.6', '100'],
      ['', '100'],
    ] as const) {
      await beats.fill(typed);
      await beats.press('Enter');
      expect(await beats.inputValue()).toBe(taken);
    }
    expect(await percent.inputValue()).toBe('83');
  });

  test('slow the music down by half when they say half', async () => {
    const { page, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await control('spinbutton', 'quarters a minute').fill('36');
    await control('spinbutton', 'quarters a minute').press('Enter');
    // A bar at 36 takes more than six seconds.
    expect((await barsPlayed(page, 5)).length).toBeLessThanOrEqual(2);
  });

  test('mute each part, and the tune to play along', async () => {
    const { page, control, hearAtOnce } = await visit();
    await hearAtOnce();
    await page.waitForTimeout(600);
    const full = await level(page);
    expect(full).toBeGreaterThan(0.1);
    await control('button', 'Mute tune').click();
    await page.waitForTimeout(900);
    const band = await level(page);
    expect(band).toBeGreaterThan(0.02);
    for (const part of ['bass', 'drums', 'chords']) await control('button', `Mute ${part}`).click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    await control('button', 'Mute tune').click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.05);
    await control('slider', 'Tune').fill('0');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });

  test('remember the mix for the next page', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await page.getByText('Practice and band').first().click();
    await control('button', 'Mute drums').click();
    await control('slider', 'Bass').fill('35');
    await page.reload();
    await hear();
    await page.getByText('Practice and band').first().click();
    expect(await control('button', 'Mute drums').getAttribute('aria-pressed')).toBe('true');
    expect(await control('slider', 'Bass').inputValue()).toBe('35');
  });

  test('are the same for every block of the page, which has one band and one drone', async () => {
    const { page, block, control, hear } = await visit();
    await hear();
    await page.getByText('Practice and band').first().click();
    await control('combobox', 'Drone').selectOption('E, the key note');
    const second = page.locator('[data-block="1"]');
    await second.getByRole('button', { name: 'Hear it' }).click();
    await second.getByText('Practice and band').click();
    await second.getByRole('button', { name: 'Mute drums' }).click();
    await second.getByRole('slider', { name: 'Bass' }).fill('20');
    await second.getByRole('checkbox', { name: 'Metronome' }).check();
    expect(await control('button', 'Mute drums').getAttribute('aria-pressed')).toBe('true');
    expect(await control('slider', 'Bass').inputValue()).toBe('20');
    expect(await control('checkbox', 'Metronome').isChecked()).toBe(true);
    expect(await control('combobox', 'Drone').inputValue()).toBe('key');
    await second.getByRole('combobox', { name: 'Drone' }).selectOption('C, the key note');
    expect(await control('combobox', 'Drone').inputValue()).toBe('');
    await page.evaluate(() => dispatchEvent(new Event('pagehide')));
    expect(await second.getByRole('combobox', { name: 'Drone' }).inputValue()).toBe('');
    expect(await block.locator('select').last().inputValue()).toBe('');
  });

  test('are not read aloud twice: what a slider says is said by the slider', async () => {
    const { page, block, control, hear } = await visit();
    await hear();
    await page.getByText('Practice and band').first().click();
    expect(await control('slider', 'Swing').getAttribute('aria-valuetext')).toBe('67 to 33');
    expect(await control('slider', 'Bass').getAttribute('aria-valuetext')).toBe('80 percent');
    expect(await block.getByRole('status').count()).toBe(0);
  });

  test('hold a drone without the tune, and let it go', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await control('button', 'Stop').click();
    await page.getByText('Practice and band').first().click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    const names = await control('combobox', 'Drone').locator('option').allTextContents();
    expect(names).toEqual(['none', 'E, the key note', 'E and its fifth', 'E7 (I7)', 'A7 (IV7)', 'B7 (V7)']);
    await control('combobox', 'Drone').selectOption('E7 (I7)');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.02);
    await control('combobox', 'Drone').selectOption('none');
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
  });

  test('click a metronome, and straighten the swing', async () => {
    const { page, block, control, hearAtOnce } = await visit();
    await hearAtOnce();
    for (const part of ['tune', 'bass', 'drums', 'chords']) await control('button', `Mute ${part}`).click();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeLessThan(0.002);
    await control('checkbox', 'Metronome').check();
    await expect.poll(() => level(page), { timeout: 4000 }).toBeGreaterThan(0.05);
    await control('slider', 'Swing').fill('50');
    expect(await block.getByText('straight').count()).toBe(1);
    expect((await barsPlayed(page, 1)).length).toBeGreaterThan(0);
  });

  test('follow the harp in the hand', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await page.getByText('Practice and band').first().click();
    await page.evaluate(() => {
      localStorage.setItem('reedway-harp', JSON.stringify({ harp: 'low F' }));
      document.dispatchEvent(new CustomEvent('reedway:harp'));
    });
    const names = await control('combobox', 'Drone').locator('option').allTextContents();
    expect(names).toContain('C7 (I7)');
    expect(await control('button', 'Pause').count()).toBe(1);
  });

  test('have no fault that axe finds, closed, open and with large type', async () => {
    const { page, control, hear } = await visit();
    await hear();
    await page.locator('.player').waitFor();
    await page.getByText('Practice and band').first().click();
    await control('button', 'Large type').click();
    await page.evaluate(axe);
    const faults = await page.evaluate(async () => {
      const { axe } = globalThis as unknown as {
        axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
      };
      return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`);
    });
    expect(faults).toEqual([]);
  });
});

describe('on a phone on a music stand', () => {
  const PHONE = { width: 360, height: 740, touch: true };

  test('large type says what to do now and next, and covers nothing that is played', async () => {
    const { page, block, control, hearAtOnce } = await visit(PHONE);
    await hearAtOnce();
    await control('button', 'Large type').click();
    await control('button', 'Stop').click();
    await control('button', 'Play').click();
    const stand = page.getByRole('region', { name: 'What to play' });
    const now = stand.locator('.stand-now');
    // The music goes on while the test reads, so all that is shown of one note is read in one look.
    const lacking = async (): Promise<string[]> => {
      const text = ((await now.textContent()) ?? '').replace(/\s+/g, ' ');
      return ['3', 'draw', 'half-step bend', 'lips', '♭3', 'glide on'].filter((word) => !text.includes(word));
    };
    await expect.poll(lacking, { interval: 20, timeout: 20_000 }).toEqual([]);
    await expect
      .poll(() => stand.locator('.stand-next').textContent(), { interval: 20, timeout: 20_000 })
      .toContain('rest');
    expect(await stand.locator('.stand-place').textContent()).toContain('E7 (I7)');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.waitForTimeout(3000);
    const seenTile = await block.evaluate((element) => {
      const tile = element.querySelector('.tile.now')?.getBoundingClientRect();
      const main = element.querySelector('.player-main')?.getBoundingClientRect();
      return { top: tile?.top ?? -1, bottom: tile?.bottom ?? 9999, floor: main?.top ?? 0 };
    });
    expect(seenTile.top).toBeGreaterThanOrEqual(0);
    expect(seenTile.bottom).toBeLessThanOrEqual(seenTile.floor + 1);
  });

  test('large type says during the count-in what comes first', async () => {
    const { page, control, hear } = await visit(PHONE);
    await hear();
    await control('button', 'Large type').click();
    const stand = page.getByRole('region', { name: 'What to play' });
    expect(await stand.locator('.stand-place').textContent()).toBe('Bar 1 · E7 (I7) · 120 a minute');
    expect(await stand.locator('.stand-now').textContent()).toContain('count-in');
    expect(await stand.locator('.stand-next').textContent()).toContain('half-step bend');
  });

  test('large type has room for a chord and every word about it', async () => {
    for (const size of [PHONE, { ...PHONE, width: 740, height: 360 }]) {
      const { page, control, hearAtOnce } = await visit(size);
      await hearAtOnce();
      await control('button', 'Large type').click();
      await control('button', /^Loop bar 8\b/).click();
      await control('button', 'Pause').click();
      const stand = page.getByRole('region', { name: 'What to play' });
      expect(await stand.locator('.stand-now').textContent()).toBe('Now1 2 3drawlips');
      const faults = await stand.evaluate((element) => {
        const whole = element.getBoundingClientRect();
        return [...element.querySelectorAll('.stand-place, .stand-now b, .stand-now .stand-about span')]
          .filter((one) => {
            const { top, bottom, left, right, height } = one.getBoundingClientRect();
            const line = Number.parseFloat(getComputedStyle(one).fontSize) * 3;
            const inside = top >= whole.top && bottom <= whole.bottom && left >= whole.left && right <= whole.right;
            return !inside || height === 0 || height > line;
          })
          .map((one) => one.textContent);
      });
      expect(faults).toEqual([]);
    }
  });

  test('large type follows the harp in the hand, paused as well', async () => {
    const { page, control, hearAtOnce } = await visit(PHONE);
    await hearAtOnce();
    await control('button', 'Large type').click();
    await control('button', 'Pause').click();
    const place = page.getByRole('region', { name: 'What to play' }).locator('.stand-place');
    expect(await place.textContent()).toContain('E7 (I7)');
    await page.evaluate(() => {
      localStorage.setItem('reedway-harp', JSON.stringify({ harp: 'low F' }));
      document.dispatchEvent(new CustomEvent('reedway:harp'));
    });
    expect(await place.textContent()).toContain('C7 (I7)');
  });

  test('a finger chooses a bar by touching it', async () => {
    const { block, control, hear } = await visit(PHONE);
    await hear();
    await control('button', /^Loop bar 2\b/).tap();
    expect(await block.locator('.bar-picks .chosen').count()).toBe(1);
    await control('button', /^Loop bar 3\b/).tap();
    expect(await block.locator('.bar-picks .chosen').count()).toBe(2);
  });

  test('what can be seen is not scrolled', async () => {
    const { page, hearAtOnce } = await visit({ height: 2200 });
    await hearAtOnce();
    await page.waitForTimeout(4500);
    expect((await nowBars(page))[0]).toBeGreaterThanOrEqual(2);
    expect((await seen(page)).scrolls).toEqual([]);
  });

  test('the page follows smoothly, or at once for who wants no motion', async () => {
    for (const calm of [false, true]) {
      const { page, hearAtOnce } = await visit({ ...PHONE, calm });
      await hearAtOnce();
      await page.waitForTimeout(2500);
      const { scrolls } = await seen(page);
      expect(scrolls.length).toBeGreaterThan(0);
      expect(new Set(scrolls.map(({ behavior }) => behavior))).toEqual(new Set([calm ? 'instant' : 'smooth']));
    }
  });
});

describe('a player that cannot be loaded', () => {
  test('says so on its button, which keeps the focus and tries again', async () => {
    const { page, block, control } = await visit();
    await page.route(/\.js$/, (route) => route.abort());
    const button = block.locator('reedway-player button');
    await button.press('Enter');
    await expect.poll(() => button.textContent()).toContain('could not be loaded');
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
    await page.unroute(/\.js$/);
    await button.press('Enter');
    await control('button', 'Pause').waitFor();
  });
});

describe('a browser that makes no sound', () => {
  test('is told apart, and the block stays', async () => {
    const { page, block, hear } = await visit({
      before: () => {
        Reflect.deleteProperty(globalThis, 'AudioContext');
      },
    });
    await hear();
    expect(await block.getByRole('alert').textContent()).toContain('no Web Audio');
    expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('alert');
    expect(await block.locator('.tile').first().isVisible()).toBe(true);
  });

  test('that holds the sound back is asked again with a button', async () => {
    const { page, block, control, hear } = await visit({
      before: () => {
        let held = true;
        const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'state')?.get;
        Object.defineProperty(AudioContext.prototype, 'state', {
          get(this: AudioContext) {
            return held ? 'suspended' : real?.call(this);
          },
        });
        Object.assign(globalThis, {
          letSound: () => {
            held = false;
          },
        });
      },
    });
    await hear();
    const message = block.locator('.player-message');
    await expect.poll(() => message.textContent()).toContain('not let this page sound');
    expect(await control('button', 'Play').count()).toBe(1);
    await page.evaluate(() => (globalThis as unknown as { letSound: () => void }).letSound());
    await control('button', 'Let it sound').click();
    await control('button', 'Pause').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Pause');
    expect(await message.textContent()).toBe('');
    await block.locator('.tile.now').first().waitFor();
  });
});
