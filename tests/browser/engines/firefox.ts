/** Firefox, by puppeteer over WebDriver BiDi: playwright drives only a build of its own. */
import { type Browser, launch } from 'puppeteer-core';
import { programAt } from '../../setup/debian.ts';
import { type EngineOptions, type OpenAnEngine, WINDOW } from './engine.ts';

/** About one start in nine ends with “Target closed”. */
const TRIES = 4;

const start = ({ dark = false, env = {} }: EngineOptions): Promise<Browser> =>
  launch({
    browser: 'firefox',
    executablePath: programAt('firefox-esr'),
    headless: true,
    env: { ...process.env, ...env },
    extraPrefsFirefox: {
      'media.autoplay.default': 0,
      'media.autoplay.blocking_policy': 0,
      'layout.css.prefers-color-scheme.content-override': dark ? 0 : 1,
      // Scroll bars that take no room, as in the other engines.
      'ui.useOverlayScrollbars': 1,
    },
  });

async function startAtLast(options: EngineOptions): Promise<Browser> {
  for (let left = TRIES - 1; ; left--) {
    try {
      return await start(options);
    } catch (error) {
      if (left === 0 || !/Target closed|Failed to launch/.test(String(error))) throw error;
    }
  }
}

export const openFirefox: OpenAnEngine = async (options = {}) => {
  const browser = await startAtLast(options);
  const page = await browser.newPage();
  await page.setViewport(WINDOW);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error instanceof Error ? error.message : String(error)));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return {
    page: {
      goto: async (address) => void (await page.goto(address)),
      run: (script, argument) => page.evaluate(script as never, argument as never) as never,
      pressAt: (x, y) => page.mouse.click(x, y),
      resize: (width, height) => page.setViewport({ width, height }),
      picture: async () => Buffer.from(await page.screenshot()),
      errors,
    },
    close: () => browser.close(),
  };
};
