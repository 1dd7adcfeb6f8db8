/** What axe, the accessibility checker, finds wrong on an open page. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Axe {
  run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
}

/** Each violation as `rule: element`. It is evaluated from outside: the policy of a page lets no script of the page itself run it. */
export async function violationsOn(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as { axe: Axe };
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  });
}
