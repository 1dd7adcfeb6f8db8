/**
 * The browser the tests drive: Debian's Chromium without a window. The whole of Chromium would make a window with its own pages
 * for every context, which takes several times as long; what renders, sounds and runs a page is the same.
 */
import type { LaunchOptions } from 'playwright-core';
import { programAt } from '../setup/debian.ts';

export const CHROMIUM: LaunchOptions = {
  executablePath: programAt('chromium-headless-shell'),
  headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--disable-background-networking', '--no-first-run'],
};
