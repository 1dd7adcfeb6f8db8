/** The browser the tests drive: Debian's Chromium, which a machine without a window or a keyring of its own can start. */
import type { LaunchOptions } from 'playwright-core';

export const CHROMIUM: LaunchOptions = {
  executablePath: '/usr/bin/chromium',
  headless: true,
  args: [
    '--headless',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--disable-background-networking',
    '--no-first-run',
  ],
};
