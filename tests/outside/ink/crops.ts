/** Pictures of faults, to look at. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import type { Found } from './page.ts';
import { openWindow, type Setting, show } from './site.ts';

/** CSS pixels around a fault. */
const AROUND = 60;
const SHARPNESS = 3;

/** Writes a PNG of each fault into a folder, named by its kind and number, with the fault framed in red. */
export async function cropFaults(
  browser: Browser,
  address: string,
  setting: Setting,
  faults: readonly Found[],
  folder: string,
): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const page = await openWindow(browser, setting, SHARPNESS);
  const counts = new Map<string, number>();
  const byPage = Map.groupBy(
    faults.filter(({ block }) => block !== ''),
    (fault) => fault.page,
  );
  for (const [path, own] of byPage) {
    await show(page, address + path, setting);
    for (const { kind, box, corner } of own) {
      const [left, top, right, bottom] = box.map((value, index) => value + (corner[index % 2] ?? 0)) as [
        number,
        number,
        number,
        number,
      ];
      await page.evaluate(
        ([x, y, width, height]) => {
          document.querySelector('#ink-frame')?.remove();
          const frame = document.createElement('div');
          frame.id = 'ink-frame';
          frame.style.cssText = `position:absolute;pointer-events:none;z-index:9;outline:1px solid red;left:${x}px;top:${y}px;width:${width}px;height:${height}px`;
          document.body.append(frame);
        },
        [left - 2, top - 2, right - left + 4, bottom - top + 4] as const,
      );
      const name = kind.replace(/[^a-z]+/g, '-');
      const number = (counts.get(name) ?? 0) + 1;
      counts.set(name, number);
      const clip = {
        x: Math.max(0, left - AROUND),
        y: Math.max(0, top - AROUND),
        width: right - left + 2 * AROUND,
        height: bottom - top + 2 * AROUND,
      };
      await page.screenshot({ path: join(folder, `${name}-${number}.png`), clip, fullPage: true });
    }
  }
  await page.context().close();
}
