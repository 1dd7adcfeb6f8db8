/** What Firefox plays, recorded at the sound device: when notes begin, and whether what is lit up keeps to it. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { itemAt } from '../../../src/values/checked.ts';
import type { SharedSite } from '../shared-site.ts';
import { delayOf, median, onsetsOf } from '../sound/aubio.ts';
import { writeWav } from '../sound/browser-sound.ts';
import { ALL_ENGINES } from './asked.ts';
import type { OpenEngine } from './engine.ts';
import { openFirefox } from './firefox.ts';
import { enginesSite } from './site.ts';
import { openSoundServer, type SoundServer } from './sound-server.ts';
import { studentAt } from './student.ts';

/** Seconds from one note of the block to the next. */
const BEAT = 0.5;
/** Seconds in which a note rises, and the frequency of hole 4 blown on a C harp. */
const ATTACK = 0.008;
const TONE = 523;

let sound: SoundServer;
let site: SharedSite;
let engine: OpenEngine;
beforeAll(async () => {
  if (!ALL_ENGINES) return;
  sound = await openSoundServer();
  site = await enginesSite();
  engine = await openFirefox({ env: sound.env });
});
afterAll(async () => {
  await engine?.close();
  site?.close();
  await sound?.close();
});

it.runIf(ALL_ENGINES)(
  'plays every note on its beat, and lights it up neither before it is heard nor late',
  { retry: 2 },
  async () => {
    const { page } = engine;
    const student = studentAt(page);
    await page.goto(`${site.address}lessons/steady/`);
    // The tune alone, from the first note on.
    await student.press({ role: 'button', name: 'Hear it*' });
    await student.press({ role: 'button', name: 'Stop' });
    await student.press({ role: 'button', name: 'More' });
    await student.sees('further controls', () => document.querySelectorAll('.player-sheet input').length > 3);
    await page.run(() => {
      for (const field of document.querySelectorAll<HTMLInputElement>('.player-sheet input[type=range]')) {
        if (!['Bass', 'Drums', 'Chords'].includes(field.labels?.[0]?.textContent ?? '')) continue;
        field.value = '0';
        for (const type of ['input', 'change']) field.dispatchEvent(new Event(type, { bubbles: true }));
      }
    });
    await student.press({ role: 'checkbox', name: 'Count-in' });
    await student.press({ role: 'button', name: 'More' });
    await page.run(() => {
      const lit: number[] = [];
      Object.assign(window, { lit });
      let before: Element | null = null;
      const look = (): void => {
        const now = document.querySelector('[data-event].now');
        if (now && now !== before) lit.push((performance.timeOrigin + performance.now()) / 1000);
        before = now;
        requestAnimationFrame(look);
      };
      look();
    });
    const recording = await sound.record();
    await student.press({ role: 'button', name: 'Play' });
    await student.sees('it end', () => document.querySelector('.player-play')?.textContent === 'Play');
    const recorded = await recording.end();
    const lit = await page.run(() => (window as unknown as { lit: number[] }).lit);

    const found = onsetsOf(writeWav(recorded), 0.2);
    const steps = found.slice(1).map((onset, index) => onset - itemAt(found, index));
    expect(steps.length).toBeGreaterThan(12);
    // Where the machine keeps Firefox waiting, its device waits, too: what follows is late as a whole, and one step is longer.
    expect(steps.filter((step) => Math.abs(step - BEAT) * 1000 < 1).length).toBeGreaterThan(10);
    expect(Math.abs(median(steps) - BEAT) * 1000).toBeLessThan(0.5);

    const late = delayOf(ATTACK, TONE);
    const leads = found.map((onset) => {
      const heard = recorded.begun + onset - late;
      return lit.reduce((best, at) => (Math.abs(at - heard) < Math.abs(best - heard) ? at : best), 0) - heard;
    });
    // Drawn sixty times a second. With the whole latency of the output it would be more than 20 ms early.
    expect(Math.abs(median(leads)) * 1000).toBeLessThan(15);
  },
);
