/** A course and a command of the project that runs on it, for fuzzers that ask a server. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { DEFAULT_FILES } from './course-in-memory.ts';

const ENTRY = fileURLToPath(new URL('../../src/command/reedway.ts', import.meta.url));

/** What no server may ever send. */
export const SECRET = 'THE-SECRET-OF-THE-DISK';

/** A folder with a course in it, and files beside and in the course that are not part of the site. */
export function someCourse(): { readonly root: string; readonly dir: string } {
  const root = mkdtempSync(join(tmpdir(), 'reedway-fuzz-'));
  const dir = join(root, 'course');
  const files = { ...DEFAULT_FILES, 'secret.txt': SECRET, '.hidden/secret': SECRET, 'media/.secret': SECRET };
  for (const [path, content] of [...Object.entries(files), ['../secret.txt', SECRET] as const]) {
    mkdirSync(dirname(join(dir, path)), { recursive: true });
    writeFileSync(join(dir, path), content);
  }
  return { root, dir };
}

/** A command that runs until it is stopped. */
export interface Running {
  readonly port: number;
  readonly child: ChildProcess;
  stop(): void;
}

/** Runs a command to its end. */
export function ran(line: readonly string[]): Promise<number | null> {
  const child = spawn(process.execPath, [ENTRY, ...line], { stdio: 'ignore' });
  return new Promise((resolve) => child.on('close', resolve));
}

/** A port that nothing listens on. */
function freePort(): Promise<number> {
  const probe = createServer();
  return new Promise((resolve, reject) => {
    probe.on('error', reject);
    probe.listen(0, 'localhost', () => {
      const address = probe.address();
      probe.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}

/** Starts a server, and waits for the address that it prints. */
export async function started(line: readonly string[], root: string): Promise<Running> {
  const child = spawn(process.execPath, [ENTRY, ...line, '--port', `${await freePort()}`], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    child.stdout.on('data', (data) => {
      const port = /http:\/\/[^:]+:(\d+)/.exec(String(data))?.[1];
      const stop = (): void => {
        child.kill();
        rmSync(root, { recursive: true, force: true });
      };
      if (port !== undefined) resolve({ port: Number(port), child, stop });
    });
    child.on('close', (code) => reject(new Error(`the server ended with ${code}`)));
  });
}
