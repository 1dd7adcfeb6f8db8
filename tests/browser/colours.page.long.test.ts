/** Colours that the reader or the device chooses reach the map and the pictures of the demo course. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { alsoLong } from '../setup/long.ts';
import { demoSite, type SharedSite } from './shared-site.ts';
import { openBrowser } from './sound/browser-sound.ts';

let site: SharedSite;
let browser: Browser;
beforeAll(async () => {
  site = await demoSite();
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  site?.close();
});

/** From the darkest pixel of a picture on its page to the brightest, as WCAG counts contrast. */
async function contrastOf(page: Page, selector: string): Promise<number> {
  const picture = page.locator(selector).first();
  await picture.scrollIntoViewIfNeeded();
  await expect
    .poll(() => picture.evaluate((node: HTMLImageElement) => node.complete && node.naturalWidth > 0))
    .toBe(true);
  const shot = (await picture.screenshot()).toString('base64');
  return page.evaluate(async (png) => {
    const image = new Image();
    image.src = `data:image/png;base64,${png}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    Object.assign(canvas, { width: image.width, height: image.height });
    const context = canvas.getContext('2d') as CanvasRenderingContext2D;
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    const linear = (value = 0): number => (value <= 10 ? value / 3294 : ((value / 255 + 0.055) / 1.055) ** 2.4);
    let [least, most] = [1, 0];
    for (let at = 0; at < data.length; at += 4) {
      const light = 0.2126 * linear(data[at]) + 0.7152 * linear(data[at + 1]) + 0.0722 * linear(data[at + 2]);
      least = Math.min(least, light);
      most = Math.max(most, light);
    }
    return (most + 0.05) / (least + 0.05);
  }, shot);
}

const PICTURES = alsoLong(
  ['first-sounds', 'tongue-blocking'],
  ['breath-turns', 'octave-splits', 'shuffle-and-triplets'],
);

describe.each(['light', 'dark'] as const)('where the device is %s', (colorScheme) => {
  const other = colorScheme === 'light' ? 'night' : 'day';

  test.each(['none', 'active'] as const)('pictures stand out, forced colours %s', async (forcedColors) => {
    const page = await browser.newPage({ viewport: { width: 820, height: 900 }, colorScheme, forcedColors });
    for (const lesson of PICTURES) {
      await page.goto(`${site.address}lessons/${lesson}/`);
      expect(await contrastOf(page, '.lesson-text img[src$=".svg"]'), lesson).toBeGreaterThan(5.5);
      // Light or dark as the visitor chose it on the page.
      await page.evaluate((light) => {
        document.documentElement.dataset['light'] = light;
      }, other);
      expect(await contrastOf(page, '.lesson-text img[src$=".svg"]'), `${lesson}, ${other}`).toBeGreaterThan(5.5);
    }
    await page.close();
  });

  test('the map takes the colours that the reader has forced', async () => {
    const page = await browser.newPage({ colorScheme, forcedColors: 'active' });
    await page.goto(`${site.address}path/`);
    const { system, map } = await page.evaluate(() => {
      const probe = document.body.appendChild(document.createElement('p'));
      const colour = (name: string): string => {
        probe.style.cssText = `forced-color-adjust: none; color: ${name}`;
        return getComputedStyle(probe).color;
      };
      const of = (selector: string, property: 'fill' | 'stroke'): string =>
        getComputedStyle(document.querySelector(`.path-map ${selector}`) as Element)[property];
      const box = document.querySelector('.path-map .lesson-box') as Element;
      const inState = (state: string, part: string, property: 'fill' | 'stroke'): string => {
        box.setAttribute('class', `lesson-box ${state}`);
        return of(`.lesson-box ${part}`, property);
      };
      return {
        system: { canvas: colour('Canvas'), text: colour('CanvasText'), link: colour('LinkText') },
        map: {
          line: of('.dependency', 'stroke'),
          frame: inState('', '.plate', 'stroke'),
          ground: inState('', '.plate', 'fill'),
          done: inState('done', '.plate', 'stroke'),
          tick: inState('done', '.tick', 'stroke'),
          next: inState('next', '.plate', 'fill'),
          nextTitle: inState('next', '.title', 'fill'),
        },
      };
    });
    const { canvas, text, link } = system;
    expect(new Set([canvas, text, link]).size).toBe(3);
    expect(map).toEqual({
      line: text,
      frame: link,
      ground: canvas,
      done: text,
      tick: text,
      next: text,
      nextTitle: canvas,
    });
    await page.close();
  });
});

test('lessons on the map and in its list are targets of at least 24 pixels', async () => {
  const page = await browser.newPage({ viewport: { width: 320, height: 800 } });
  await page.goto(`${site.address}path/`);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('.path-map .plate, .path-list a')]
      .map((node) => ({ of: node.closest('a')?.getAttribute('href'), box: node.getBoundingClientRect() }))
      .filter(({ box }) => Math.min(box.width, box.height) < 24)
      .map(({ of, box }) => `${of}: ${box.width} by ${box.height}`),
  );
  expect(small).toEqual([]);
  await page.close();
});
