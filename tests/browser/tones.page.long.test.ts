/** The notes of a bend ladder and a harp map, pressed. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest';
import { drawFigure } from '../../src/engrave/figure/draw.ts';
import { songKey } from '../../src/harmony/key.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { TEMPERAMENTS } from '../../src/instrument/temperament.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { alsoLong } from '../setup/long.ts';
import { violationsOn } from './axe.ts';
import { median, pitchesOf } from './sound/aubio.ts';
import { openBrowser, type Served, serve, writeWav } from './sound/browser-sound.ts';
import { scripts } from './sound/lesson-page.ts';

const style = (name: string): string =>
  `<style>${readFileSync(new URL(`../../src/site/styles/${name}.css`, import.meta.url), 'utf8')}</style>`;

let browser: Browser;
let served: Served;
let page: Page;

beforeAll(async () => {
  const harp = readHarp('C', RICHTER);
  const low = readHarp('Low F', RICHTER);
  const just = TEMPERAMENTS.find(({ id }) => id === 'just');
  if (!(harp && low && just)) throw new Error('no harp');
  const key = songKey({ letter: 'G', alter: 0 }, 'major');
  const figures = [
    drawFigure({ kind: 'bend-ladder', harp, hole: 3 }, {}),
    drawFigure({ kind: 'harp-map', harp, position: 2, key, show: 'notes', bends: true, overbends: true }, {}),
    drawFigure({ kind: 'bend-ladder', harp: low, hole: 2, title: 'Low F' }, { concertA: 442, temperament: just }),
  ];
  const body = `<!doctype html><html lang="en"><title>Figures</title>${style('ground')}${style('tones')}
<main>${figures.map((figure) => `<figure class="figure">${figure}</figure>`).join('')}</main>
<script type="module" src="/offer.js"></script></html>`;
  served = await serve({
    '/': { type: 'text/html; charset=utf-8', body },
    ...(await scripts('src/browser/tones/offer.ts')),
  });
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  served?.close();
});

/** Before the page's scripts: everything that sounds passes a meter of the loudest frequency. */
function watch(): void {
  const meters: AnalyserNode[] = [];
  const recorded: number[] = [];
  const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'destination')?.get;
  const taps = new WeakMap<AudioContext, AudioNode>();
  Object.defineProperty(AudioContext.prototype, 'destination', {
    get(this: AudioContext) {
      let tap = taps.get(this);
      if (!tap) {
        const meter = this.createAnalyser();
        meter.fftSize = 32768;
        meter.smoothingTimeConstant = 0;
        meter.connect(real?.call(this) as AudioNode);
        meters.push(meter);
        const recorder = this.createScriptProcessor(4096, 1, 1);
        recorder.onaudioprocess = ({ inputBuffer }) => recorded.push(...inputBuffer.getChannelData(0));
        meter.connect(recorder).connect(real?.call(this) as AudioNode);
        tap = meter;
        taps.set(this, tap);
      }
      return tap;
    },
  });
  /** The lowest strong frequency that sounds, in hertz; 0 for silence. */
  const hear = (): number => {
    const meter = meters[0];
    if (!meter) return 0;
    const bins = new Float32Array(meter.frequencyBinCount);
    meter.getFloatFrequencyData(bins);
    const loudest = Math.max(...bins);
    if (loudest < -70) return 0;
    const first = bins.findIndex((level, bin) => bin > 40 && level > loudest - 12 && level >= (bins[bin + 1] ?? level));
    return (first * meter.context.sampleRate) / meter.fftSize;
  };
  const record = async () => {
    const rate = (): number => meters[0]?.context.sampleRate ?? 0;
    while (rate() === 0 || recorded.length < 1.5 * rate()) await new Promise(requestAnimationFrame);
    return { samples: recorded.splice(0), rate: rate() };
  };
  Object.assign(window, { hear, record });
}
/** A second and a half and more from when the page began to sound. */
async function recorded(): Promise<{ samples: Float32Array; rate: number }> {
  const { samples, rate } = await page.evaluate(() =>
    (window as unknown as { record: () => Promise<{ samples: number[]; rate: number }> }).record(),
  );
  return { samples: Float32Array.from(samples), rate };
}
const hear = () => page.evaluate(() => (window as unknown as { hear: () => number }).hear());
/** How far what sounds is from a frequency, in hertz. */
const offBy = (hertz: number) => async (): Promise<number> => Math.abs((await hear()) - hertz);

beforeEach(async () => {
  await page?.close();
  page = await browser.newPage();
  await page.addInitScript(watch);
  await page.goto(served.address);
});

test('a note sounds at its frequency while it is pressed, and stops when it is let go', async () => {
  const reed = page.locator('[data-tab="-3"] .tone').first();
  expect(await hear()).toBe(0);
  await reed.hover();
  await page.mouse.down();
  // B4 is 493.88 Hz; the meter's bins are 1.5 Hz wide.
  await expect.poll(offBy(493.88), { timeout: 4000 }).toBeLessThan(3);
  await page.mouse.up();
  await expect.poll(hear, { timeout: 4000 }).toBe(0);
});

test('a bend goes down to its own frequency', async () => {
  const bend = page.locator(`[data-tab="-3''"] .tone`).first();
  await bend.hover();
  await page.mouse.down();
  await expect.poll(offBy(440), { timeout: 4000 }).toBeLessThan(3);
  await page.mouse.up();
});

test.each(alsoLong(["-2'"], ['2', '-2', "-2''"]))(
  '%s of a justly tuned low F harp is what its ladder says, by aubio',
  async (tab) => {
    const place = page.locator('.figure').nth(2).locator(`[data-tab="${tab}"]`);
    await place.locator('.tone').hover();
    await page.mouse.down();
    const pitches = pitchesOf(writeWav(await recorded())).flatMap(({ hertz }) => (hertz > 50 ? [hertz] : []));
    await page.mouse.up();
    const reported = Number(await place.getAttribute('data-frequency'));
    expect(pitches.length).toBeGreaterThan(50);
    expect(Math.abs(1200 * Math.log2(median(pitches) / reported))).toBeLessThan(2);
  },
);

test('a key sounds a note for a moment', async () => {
  await page.locator('[data-tab="4"] .tone').first().focus();
  await page.keyboard.press('Enter');
  await expect.poll(hear).toBeGreaterThan(515);
  expect(Math.abs((await hear()) - 523.25)).toBeLessThan(3);
  await expect.poll(hear, { timeout: 4000 }).toBe(0);
});

test('every note of the figures is a button with a name, and axe finds nothing', async () => {
  const places = await page.locator('[data-frequency]').count();
  expect(places).toBeGreaterThan(40);
  expect(await page.locator('[data-frequency] > .tone').count()).toBe(places);
  // A name of a note is in several places of a map.
  const named = (name: RegExp) => page.getByRole('button', { name }).count();
  expect(await named(/^D ?, hole 1, draw, play it$/)).toBe(1);
  expect(await named(/^D ?, hole 4, draw, play it$/)).toBe(1);
  expect(await page.getByRole('button', { name: /-3'.*half-step bend.*, play it/ }).count()).toBeGreaterThan(0);
  const faults = await violationsOn(page);
  expect(faults.filter((fault) => !/^(region|page-has-heading-one|landmark)/.test(fault))).toEqual([]);
});

test('a press that opens a menu sounds nothing', async () => {
  await page.locator('[data-tab="4"] .tone').first().click({ button: 'right' });
  // A sound would have begun by then.
  await page.waitForTimeout(400);
  expect(await hear()).toBe(0);
});

test('a touch sounds a note', async () => {
  const touched = await browser.newContext({ hasTouch: true });
  await page.close();
  page = await touched.newPage();
  await page.addInitScript(watch);
  await page.goto(served.address);
  await page.locator('[data-tab="-4"] .tone').first().tap();
  await expect.poll(hear).toBeGreaterThan(580);
  // D5 is 587.33 Hz.
  expect(Math.abs((await hear()) - 587.33)).toBeLessThan(3);
  await touched.close();
});

test('a figure drawn again can be pressed again', async () => {
  await page.evaluate(() => {
    const figure = document.querySelector('.figure') as HTMLElement;
    figure.innerHTML = '<table><tr><th scope="row" data-tab="4" data-frequency="523.3">4</th></tr></table>';
  });
  await page.locator('.figure').first().locator('.tone').waitFor();
});
