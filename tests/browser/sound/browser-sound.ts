/** A real browser for the sound tests, and recordings from it as WAV files for the programs that measure them. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { build } from 'esbuild';
import { type Browser, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';
import { CHROMIUM } from '../chromium.ts';
import type { Live, Render, soundTest } from './page.ts';

type SoundTest = typeof soundTest;

/** Bundles a module as the site does: one file of plain JavaScript. */
export async function bundle(entry: string, minify = false): Promise<string> {
  const built = await build({
    entryPoints: [entry],
    bundle: true,
    format: 'esm',
    target: 'es2022',
    minify,
    write: false,
    logLevel: 'silent',
  });
  return built.outputFiles[0]?.text ?? '';
}

export interface Served {
  readonly address: string;
  readonly close: () => void;
}

/** Serves the given files by their path, on an address of this machine. */
export async function serve(
  files: Readonly<Record<string, { type: string; body: string | Buffer }>>,
  asked: (path: string) => void = () => {},
): Promise<Served> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost');
    asked(pathname);
    const file = files[pathname];
    response.writeHead(file ? 200 : 404, { 'content-type': file?.type ?? 'text/plain' });
    response.end(file?.body);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { address: `http://localhost:${(server.address() as AddressInfo).port}/`, close: () => server.close() };
}

/** A browser that lets a page sound without being asked. */
export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ ...CHROMIUM, args: [...(CHROMIUM.args ?? []), '--autoplay-policy=no-user-gesture-required'] });

export interface Opened {
  readonly page: Page;
  readonly close: () => Promise<void>;
}

/** Opens a page of its own that serves the given files. */
export async function openPage(files: Parameters<typeof serve>[0]): Promise<Opened> {
  const served = await serve(files);
  const browser = await openBrowser();
  const page = await browser.newPage();
  await page.goto(served.address);
  return {
    page,
    close: async () => {
      await browser.close();
      served.close();
    },
  };
}

export interface Sound {
  readonly samples: Float32Array;
  readonly rate: number;
}

const soundOf = (base64: string, rate: number): Sound => {
  const bytes = Buffer.from(base64, 'base64');
  return { samples: new Float32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4), rate };
};

export interface SoundPage {
  /** Renders offline, at {@link RATE}. */
  readonly render: (job: Render) => Promise<Sound>;
  /** Plays in real time, and records. */
  readonly record: (job: Live) => Promise<Sound>;
  readonly close: () => Promise<void>;
}

/** As page.ts has it. */
export const RATE = 48000;
export const LEAD_IN = 0.25;

/** Opens page.ts in a browser of its own. */
export async function openSound(): Promise<SoundPage> {
  const { page, close } = await openPage({
    '/': {
      type: 'text/html',
      body: '<!doctype html><title>Sound</title><script type="module" src="/page.js"></script>',
    },
    '/page.js': { type: 'text/javascript', body: await bundle(new URL('page.ts', import.meta.url).pathname) },
  });
  interface Ours {
    readonly soundTest: SoundTest;
  }
  return {
    render: async (job) =>
      soundOf(await page.evaluate((job) => (globalThis as unknown as Ours).soundTest.render(job), job), RATE),
    record: async (job) => {
      const { samples, rate } = await page.evaluate(
        (job) => (globalThis as unknown as Ours).soundTest.record(job),
        job,
      );
      return soundOf(samples, rate);
    },
    close,
  };
}

let folder: string | undefined;
let written = 0;

/** Writes a WAV file and gives its path. */
export function writeWav(sound: Sound): string {
  folder ??= mkdtempSync(join(inject('scratch'), 'sound-'));
  const path = join(folder, `${written++}.wav`);
  writeFileSync(path, wavOf(sound));
  return path;
}

/** A mono WAV file of 16-bit samples, the form every program reads. */
export function wavOf({ samples, rate }: Sound): Buffer {
  const data = Buffer.alloc(2 * samples.length);
  for (const [index, sample] of samples.entries()) {
    data.writeInt16LE(Math.round(32767 * Math.max(-1, Math.min(1, sample))), 2 * index);
  }
  const head = Buffer.alloc(44);
  head.write('RIFF', 0);
  head.writeUInt32LE(36 + data.length, 4);
  head.write('WAVEfmt ', 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(rate, 24);
  head.writeUInt32LE(rate * 2, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write('data', 36);
  head.writeUInt32LE(data.length, 40);
  return Buffer.concat([head, data]);
}
