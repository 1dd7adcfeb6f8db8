/** A teacher's film that belongs to the course. */
import { describe, expect } from 'vitest';
import { test } from './visit.ts';

describe('a film of the course', () => {
  test('plays with its captions, and lights up the bars of all cues that are on', async ({ visit }) => {
    const { film, litBars } = await visit();
    await film.cue('0:00 bar 1').click();
    await expect.poll(litBars).toEqual([1]);
    const seen = await film.media((video) => [video.videoWidth, video.textTracks[0]?.mode]);
    expect(seen).toEqual([160, 'showing']);
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2, 3, 4]);
    await expect.poll(litBars, { timeout: 4000 }).toEqual([2, 3]);
    expect(await film.media((video) => (video.textTracks[0]?.activeCues?.[0] as VTTCue | undefined)?.text)).toBe(
      'Watch the hand.',
    );
  });

  test('has its cues on the bars beside those of other clips', async ({ visit }) => {
    const { page, clip, film, litBars } = await visit();
    await clip.button('0:01 bars 1 to 2').click();
    await film.cue('0:00 bar 1').click();
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

  test('repeats a passage that ends with the film', async ({ visit }) => {
    const { film } = await visit();
    await film.cue('0:03 bar 4').click();
    await film.button('Loop the passage').click();
    await film.media(async (video) => {
      for (let ends = 0; ends < 2; ends++)
        await new Promise((resolve) => video.addEventListener('ended', resolve, { once: true }));
    });
    await expect.poll(() => film.media(({ paused }) => paused)).toBe(false);
    expect(await film.media(({ currentTime }) => currentTime)).toBeGreaterThanOrEqual(2.9);
  });

  test('that cannot be played is offered by itself', async ({ visit }) => {
    const { page } = await visit();
    const broken = page.locator('#clip-4');
    await broken.locator('video').evaluate((video: HTMLVideoElement) => void video.play().catch(() => {}));
    await broken.getByRole('link', { name: 'Open the recording' }).waitFor();
    expect(await broken.locator('.clip-message').textContent()).toContain('cannot be played in this browser');
    expect(await broken.getByRole('link').getAttribute('href')).toContain('/under/media/broken.mp4');
  });
});
