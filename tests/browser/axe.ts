/** What axe, the accessibility checker, finds wrong on an open page. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Axe {
  run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
}

/** Which rules: all, or only whether colours differ enough, which is what the dark changes. */
export type Rules = 'all' | 'contrast';

/** Each violation as `rule: element`. It is evaluated from outside: the policy of a page lets no script of the page itself run it. */
export async function violationsOn(page: Page, rules: Rules = 'all'): Promise<string[]> {
  if (await page.evaluate(() => !('axe' in globalThis))) await page.evaluate(AXE);
  return page.evaluate(async (rules) => {
    const { axe } = globalThis as unknown as { axe: Axe };
    const options = {
      all: {},
      contrast: { runOnly: { type: 'rule', values: ['color-contrast'] } },
    };
    const { violations } = await axe.run(options[rules]);
    return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
  }, rules);
}
