/** A teacher's recording that belongs to the course: its cues, its loops, and who else may sound. */
import { describe, expect } from 'vitest';
import { median, pitchesOf } from '../sound/aubio.ts';
import { writeWav } from '../sound/browser-sound.ts';
import { test } from './visit.ts';

describe('a clip of the course', () => {
  test('lights up the bars that are played, and shows its captions', async ({ visit }) => {
    const { clip, litBars } = await visit();
    await clip.media((audio) => audio.play());
    await expect.poll(litBars, { timeout: 8000 }).toEqual([1, 2]);
    await expect.poll(() => clip.element.locator('.clip-words').textContent()).toBe('Now the call & all.');
    await expect.poll(litBars, { timeout: 8000 }).toEqual([3]);
    await expect.poll(() => clip.element.locator('.clip-words').textContent()).toBe('Now the answer.');
    await expect.poll(litBars, { timeout: 8000 }).toEqual([4]);
    // The last passage ends before the recording does.
    await expect.poll(litBars, { timeout: 8000 }).toEqual([]);
  });

  test('plays from a cue of its list, from the link beside the block, and from the button on the bar', async ({
    visit,
  }) => {
    const { page, clip, litBars } = await visit();
    await clip.button('0:03 bar 3').click();
    await expect.poll(() => clip.media(({ currentTime }) => currentTime)).toBeGreaterThanOrEqual(3);
    expect(await litBars()).toEqual([3]);
    await page.getByRole('link', { name: 'bars 1 to 2, 0:01' }).click();
    await expect.poll(litBars).toEqual([1, 2]);
    expect(await clip.media(({ currentTime }) => currentTime)).toBeLessThan(3);
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

  test('repeats a passage between its cues, and slows down', async ({ visit }) => {
    const { clip, litBars } = await visit();
    await clip.button('0:05 bar 4').click();
    await expect.poll(litBars).toEqual([4]);
    await clip.button('Loop the passage').click();
    const [least, most] = await clip.media(async (audio) => {
      let returns = 0;
      const seen: number[] = [];
      while (returns < 2) {
        await new Promise(requestAnimationFrame);
        if (audio.currentTime < (seen.at(-1) ?? 0)) returns++;
        seen.push(audio.currentTime);
      }
      return [Math.min(...seen), Math.max(...seen)] as const;
    });
    expect(least).toBeGreaterThanOrEqual(4.9);
    expect(most).toBeLessThan(6.7);
    await clip.element.getByRole('slider', { name: 'Speed' }).fill('50');
    const slow = await clip.media((audio) => [audio.playbackRate, audio.preservesPitch]);
    expect(slow).toEqual([0.5, true]);
  });

  test('repeats the passage that was sought by hand', async ({ visit }) => {
    const { clip, litBars } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    await clip.button('Loop the passage').click();
    await clip.media((audio) => {
      audio.currentTime = 3.5;
    });
    await expect.poll(() => clip.media(({ currentTime }) => currentTime), { timeout: 4000 }).toBeGreaterThan(4.6);
    await expect.poll(() => clip.media(({ currentTime }) => currentTime), { timeout: 4000 }).toBeLessThan(3.5);
    expect(await litBars()).toEqual([3]);
  });

  test('shows the speed that was set with the browser’s own controls', async ({ visit }) => {
    const { clip } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    const speed = clip.element.getByRole('slider', { name: 'Speed' });
    await speed.waitFor();
    await clip.media((audio) => {
      audio.playbackRate = 0.75;
    });
    await expect.poll(() => speed.inputValue()).toBe('75');
    expect(await clip.element.locator('output').textContent()).toBe('75 %');
  });

  test('keeps its pitch at half its speed, by aubio', async ({ visit }) => {
    const { clip } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    await clip.element.getByRole('slider', { name: 'Speed' }).fill('50');
    const heard = await clip.media(async (audio) => {
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

  test('keeps the screen on while it plays, also where it takes over from another or from a block', async ({
    visit,
  }) => {
    const { page, clip, film, locks } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    await expect.poll(locks).toBe(1);
    await film.button('0:00 bar 1').click();
    await expect.poll(() => film.media(({ paused }) => paused)).toBe(false);
    // A lock that is let go late would be gone by then.
    await page.waitForTimeout(200);
    expect(await locks()).toBe(1);
    await page.getByRole('button', { name: 'Hear it' }).click();
    await expect.poll(() => film.media(({ paused }) => paused)).toBe(true);
    // A lock that the film lets go of late, or the player takes twice, would show by then.
    await page.waitForTimeout(200);
    expect(await locks()).toBe(1);
    await page.getByRole('button', { name: 'Pause', exact: true }).click();
    await expect.poll(locks).toBe(0);
  });

  test('and the block’s player pause each other', async ({ visit }) => {
    const { page, clip, litBars } = await visit();
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Pause', exact: true }).waitFor();
    await clip.button('0:01 bars 1 to 2').click();
    await page.getByRole('button', { name: 'Play', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await expect.poll(() => clip.media((audio) => audio.paused)).toBe(true);
    // What plays now lights its own bars.
    expect(await litBars()).toEqual([]);
  });

  test('lights no bars by a seek that arrives when something else plays', async ({ visit }) => {
    const { clip, film, litBars } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    // Slowly, or the film is over before it has been looked at.
    await film.media((video) => {
      video.playbackRate = 0.1;
    });
    await film.button('0:03 bar 4').first().click();
    await expect.poll(litBars).toEqual([4]);
    await clip.media(async (audio) => {
      audio.currentTime = 1.2;
      await new Promise((resolve) => audio.addEventListener('seeked', resolve, { once: true }));
    });
    expect(await litBars()).toEqual([4]);
  });

  test('loads no script of its own before it is used', async ({ visit }) => {
    const { page, clip } = await visit();
    const loaded: string[] = [];
    page.on('request', (request) => loaded.push(request.url()));
    await page.reload();
    const size = await page.evaluate(async () => {
      const urls = performance.getEntriesByType('resource').map(({ name }) => name);
      return urls.filter((url) => /clip.*\.js$/i.test(url)).length;
    });
    expect(size).toBeLessThanOrEqual(2);
    expect(loaded.some((url) => url.endsWith('head.wav'))).toBe(false);
    await clip.button('0:01 bars 1 to 2').click();
    await expect.poll(() => loaded.some((url) => url.endsWith('head.wav'))).toBe(true);
  });
});
