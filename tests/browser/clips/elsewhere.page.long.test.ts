/** Recordings that are elsewhere, and what every recording is on paper and without scripts. */
import { describe, expect } from 'vitest';
import { test } from './visit.ts';

describe('a clip that is elsewhere', () => {
  test('says where it leads, and is asked for only by a press', async ({ visit }) => {
    const { page, asked } = await visit();
    const link = page.locator('#clip-1 a[data-external-kind]');
    expect(await link.textContent()).toContain('Play this at sound.example');
    expect(asked).toEqual([]);
    await link.click();
    const audio = page.locator('#clip-1 audio');
    await expect.poll(() => audio.evaluate((one: HTMLAudioElement) => one.currentTime)).toBeGreaterThan(0);
    expect(asked.length).toBeGreaterThan(0);
    expect(await audio.evaluate((one) => one === document.activeElement)).toBe(true);
  });

  test('has its captions and its cues, as one of the course has', async ({ visit }) => {
    const { page, litBars } = await visit();
    await page.locator('#clip-1').getByRole('button', { name: '0:03 bar 2' }).click();
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2]);
    await expect.poll(() => page.locator('#clip-1 .clip-words').textContent()).toBe('Now the answer.');
  });

  test('says so where a cue lies after its end, which nobody could know before', async ({ visit }) => {
    const { page } = await visit();
    const talk = page.locator('#clip-1');
    await talk.getByRole('button', { name: '0:40 bar 3' }).click();
    await expect
      .poll(() => talk.locator('.clip-message').textContent(), { timeout: 5000 })
      .toBe('The recording ends before 0:40.');
    expect(await talk.locator('audio').evaluate((audio: HTMLAudioElement) => audio.paused)).toBe(true);
  });

  test('is a link like any other when it is opened beside the page', async ({ visit }) => {
    const { page } = await visit();
    const beside = page.context().waitForEvent('page');
    await page.locator('#clip-2 a').click({ modifiers: ['Control'] });
    await (await beside).close();
    expect(await page.locator('#clip-2 iframe').count()).toBe(0);
  });

  test('is framed where it is a page, after a press, with a name', async ({ visit }) => {
    const { page } = await visit();
    const frames = page.locator('#clip-2 iframe');
    expect(await frames.count()).toBe(0);
    await page.locator('#clip-2 a').click();
    await frames.waitFor();
    expect(await frames.getAttribute('title')).toBe('A page');
    await expect.poll(() => page.frames().length).toBe(2);
    await expect.poll(() => page.frames()[1]?.title(), { timeout: 5000 }).toBe('Elsewhere');
    // Such a page cannot be started at a time: its cue is only text, and the link to it leads to the clip.
    expect(await page.locator('#clip-2 button').count()).toBe(0);
    expect(await page.getByRole('button', { name: 'Play “A page”' }).count()).toBe(0);
    await page.getByRole('link', { name: 'bar 3, 1:00' }).click();
    expect(page.url()).toMatch(/#clip-2$/);
  });
});

test('on paper a clip says what it is, where it is, and when its bars are played', async ({ visit }) => {
  const { page } = await visit();
  await page.emulateMedia({ media: 'print' });
  const printed = async (index: number) =>
    // biome-ignore lint/performance/useDomNodeTextContent: what is hidden on paper is not to be read.
    (await page.locator(`#clip-${index}`).innerText()).replace(/\s+/g, ' ').trim();
  expect(await printed(0)).toBe(
    'The head, slowly 0:01 bars 1 to 2 0:03 bar 3 0:05 bar 4 Recording: /under/media/head.wav',
  );
  expect(await printed(1)).toBe('A talk 0:03 bar 2 0:40 bar 3 Recording: https://sound.example/talk.wav');
});

test('beside a block each clip that plays it is named', async ({ visit }) => {
  const { page } = await visit();
  const named = (await page.locator('.block-cues').allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());
  expect(named[1]).toBe('In “A talk”: bar 2, 0:03; bar 3, 0:40');
  expect(named).toHaveLength(4);
});

test('without scripts a clip plays with the browser’s controls, and its cues are words', async ({ visit }) => {
  const { page, clip } = await visit({ scripts: false });
  expect(await clip.element.locator('audio[controls]').isVisible()).toBe(true);
  expect(await clip.element.getByRole('button').count()).toBe(0);
  const cues = (await clip.element.locator('li').allTextContents()).map((text) => text.replace(/\s+/g, ' ').trim());
  expect(cues).toEqual(['0:01 bars 1 to 2', '0:03 bar 3', '0:05 bar 4']);
  expect(await page.getByRole('link', { name: 'bars 1 to 2, 0:01' }).getAttribute('href')).toBe('#clip-0');
  expect(await page.locator('#clip-3 video track').getAttribute('kind')).toBe('captions');
});
