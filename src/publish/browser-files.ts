/** Pictures and recordings, which a browser has to make: the Chromium that is installed on this machine, without a window. */
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import type { Browser } from 'playwright-core';
import { errorCode, reasonOf } from '../course/files.ts';
import type { Recording } from '../interchange/recording.ts';
import { ROOT } from './root.ts';

/** Names the program, where it is not found by itself. */
export const CHROMIUM_VARIABLE = 'REEDWAY_CHROMIUM';

/** Names of the program on different systems. */
const PROGRAMS = [
  'chromium',
  'chromium-browser',
  'chromium-headless-shell',
  'google-chrome',
  'google-chrome-stable',
  'chrome',
];
/** Where it is on systems that do not put it on the search path. */
const PLACES = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files\\Chromium\\Application\\chrome.exe',
];

/** Why nothing can be made, in words for the user. */
export class NoBrowser extends Error {
  override readonly name = 'NoBrowser';
}

/** The path of the installed Chromium; undefined where there is none. */
export function installedChromium(environment: NodeJS.ProcessEnv = process.env): string | undefined {
  const named = environment[CHROMIUM_VARIABLE];
  if (named) return isProgram(named) ? named : undefined;
  const folders = (environment['PATH'] ?? '').split(delimiter).filter(Boolean);
  return [...folders.flatMap((folder) => PROGRAMS.map((name) => join(folder, name))), ...PLACES].find(isProgram);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** A browser that makes files, until it is closed. */
export interface FileBrowser {
  /** A picture of an SVG file as PNG, two dots to each of its pixels. */
  png(svg: string): Promise<Uint8Array>;
  /** A recording as WAV. */
  wav(recording: Recording): Promise<Uint8Array>;
  close(): Promise<void>;
}

const DOTS_PER_PIXEL = 2;

/** Starts the installed Chromium. Throws {@link NoBrowser} where there is none, or it does not start. */
export async function startBrowser(): Promise<FileBrowser> {
  const executablePath = installedChromium();
  if (executablePath === undefined) {
    const named = process.env[CHROMIUM_VARIABLE];
    throw new NoBrowser(
      named
        ? `${CHROMIUM_VARIABLE} names ${named}, which is not a program.`
        : `No Chromium was found. Install it (on Debian: apt install chromium), or name the program in ${CHROMIUM_VARIABLE}.`,
    );
  }
  const { chromium } = await import('playwright-core');
  let browser: Browser;
  try {
    browser = await chromium.launch({ executablePath, args: ['--disable-gpu', '--no-first-run'] });
  } catch (error) {
    throw new NoBrowser(`${executablePath} did not start: ${errorCode(error) ? reasonOf(error) : firstLine(error)}`);
  }
  let recorder: Promise<(recording: Recording) => Promise<string>> | undefined;
  return {
    async png(svg) {
      const page = await browser.newPage({ deviceScaleFactor: DOTS_PER_PIXEL });
      try {
        // Without a doctype, class names that differ only in case would be one.
        await page.setContent(`<!doctype html><style>body{margin:0}svg{display:block}</style>${svg}`);
        return await page.locator('svg').first().screenshot();
      } finally {
        await page.close();
      }
    },
    async wav(recording) {
      recorder ??= startRecorder(browser);
      const record = await recorder;
      return Buffer.from(await record(recording), 'base64');
    },
    close: () => browser.close(),
  };
}

const firstLine = (error: unknown): string =>
  String(error instanceof Error ? error.message : error).split('\n')[0] ?? '';

/** A page with the sound of our pages in it. */
async function startRecorder(browser: Browser): Promise<(recording: Recording) => Promise<string>> {
  const page = await browser.newPage();
  await page.addScriptTag({ content: await recorderScript() });
  return async (recording) => {
    const recorded: unknown = await page.evaluate(`record(${JSON.stringify(recording)})`);
    if (typeof recorded !== 'string') throw new Error('the recorder gave no file');
    return recorded;
  };
}

/** The script of that page, bundled from the sources of the site. */
async function recorderScript(): Promise<string> {
  const { build } = await import('vite');
  const made = await build({
    root: ROOT,
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      lib: { entry: join(ROOT, 'src/browser/save/recorder.ts'), formats: ['iife'], name: 'recorder' },
    },
  });
  const [first] = Array.isArray(made) ? made : [made];
  const chunk = first && 'output' in first ? first.output.find((one) => one.type === 'chunk') : undefined;
  if (chunk?.type !== 'chunk') throw new Error('the recorder was not bundled');
  return chunk.code;
}
