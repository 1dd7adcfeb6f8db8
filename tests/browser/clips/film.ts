/** A film that Chromium records itself: a moving square, as WebM. */
import type { Browser } from 'playwright-core';

export async function filmOf(browser: Browser, seconds: number): Promise<Buffer> {
  const page = await browser.newPage();
  const coded = await page.evaluate(async (seconds) => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [160, 90];
    const brush = canvas.getContext('2d') as CanvasRenderingContext2D;
    let x = 0;
    const drawing = setInterval(() => {
      brush.clearRect(0, 0, 160, 90);
      brush.fillRect(x++ % 160, 30, 20, 20);
    }, 50);
    const recorder = new MediaRecorder(canvas.captureStream(20), { mimeType: 'video/webm;codecs=vp8' });
    const parts: Blob[] = [];
    recorder.addEventListener('dataavailable', ({ data }) => parts.push(data));
    recorder.start();
    await new Promise((resolve) => setTimeout(resolve, seconds * 1000));
    const stopped = new Promise((resolve) => recorder.addEventListener('stop', resolve));
    recorder.stop();
    await stopped;
    clearInterval(drawing);
    const bytes = new Uint8Array(await new Blob(parts).arrayBuffer());
    return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  }, seconds);
  await page.close();
  return Buffer.from(coded, 'base64');
}
