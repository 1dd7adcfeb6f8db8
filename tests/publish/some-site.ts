/** Builds and serves courses for tests, each by a process of its own, as an author would. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';

const ENTRY = fileURLToPath(new URL('../../src/command/reedway.ts', import.meta.url));

/** The test runner's own variables would have Astro take the process for a test. */
const env = Object.fromEntries(
  Object.entries(process.env).filter(([name]) => !/^(VITEST.*|NODE_ENV|TEST|DEV|PROD|MODE|BASE_URL|SSR)$/.test(name)),
);

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** `more` is added to the environment. */
export function reedway(line: readonly string[], cwd = '/', more: NodeJS.ProcessEnv = {}): Promise<Ran> {
  const child = spawn(process.execPath, [ENTRY, ...line], {
    cwd,
    env: { ...env, ...more },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    let out = '';
    let err = '';
    child.stdout.on('data', (data) => {
      out += data;
    });
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

const running: ChildProcess[] = [];
afterAll(() => {
  for (const child of running.splice(0)) child.kill();
});

/** Starts a command that continues, and waits for the address it prints. */
export function started(line: readonly string[], cwd = '/'): Promise<{ address: string; child: ChildProcess }> {
  const child = spawn(process.execPath, [ENTRY, ...line], { cwd, env, stdio: ['ignore', 'pipe', 'pipe'] });
  running.push(child);
  return new Promise((resolve, reject) => {
    let err = '';
    child.stderr.on('data', (data) => {
      err += data;
    });
    child.stdout.on('data', (data) => {
      const address = /http:\S+/.exec(String(data))?.[0];
      if (address) resolve({ address, child });
    });
    child.on('error', reject);
    child.on('close', (code) => reject(new Error(`It ended with ${code}: ${err}`)));
  });
}

/** Every file below a folder, with its bytes. */
export function filesBelow(folder: string): Map<string, Buffer> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  return new Map(
    names
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [name, readFileSync(join(folder, name))]),
  );
}
