/** Chromium, by playwright. */
import { openBrowser } from '../sound/browser-sound.ts';
import { type OpenAnEngine, WINDOW } from './engine.ts';

export const openChromium: OpenAnEngine = async ({ dark = false } = {}) => {
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: WINDOW, colorScheme: dark ? 'dark' : 'light' });
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  return {
    page: {
      goto: async (address) => void (await page.goto(address)),
      run: (script, argument) => page.evaluate(script as never, argument) as never,
      pressAt: (x, y) => page.mouse.click(x, y),
      resize: (width, height) => page.setViewportSize({ width, height }),
      picture: () => page.screenshot(),
      errors,
    },
    close: () => browser.close(),
  };
};
