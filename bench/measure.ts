/**
 * Time as it is spent, not as it passes: processor time of this process, or of another and all it starts. Beside it the
 * time by the clock and how busy the machine was, so that a reader can tell a slow program from a busy machine.
 */
import { spawn } from 'node:child_process';
import { loadavg } from 'node:os';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** In seconds. */
export interface Spent {
  readonly cpu: number;
  readonly clock: number;
}

/** What a call costs here, its garbage collection included. */
export async function spentOn<T>(work: () => T | Promise<T>): Promise<Spent & { readonly value: T }> {
  const [from, cpu] = [performance.now(), process.cpuUsage()];
  const value = await work();
  const { user, system } = process.cpuUsage(cpu);
  return { value, cpu: (user + system) / 1e6, clock: (performance.now() - from) / 1000 };
}

/** The least of some rounds: what other programs do to the machine only ever adds. */
export async function leastOf(rounds: number, work: () => unknown): Promise<Spent> {
  const all: Spent[] = [];
  for (let round = 0; round < rounds; round++) all.push(await spentOn(work));
  return least(all);
}

export const least = (all: readonly Spent[]): Spent => ({
  cpu: Math.min(...all.map(({ cpu }) => cpu)),
  clock: Math.min(...all.map(({ clock }) => clock)),
});

export interface Ran extends Spent {
  readonly out: string;
}

/** Runs a program to its end, with all it starts, and fails if it fails. */
export function run(
  file: string,
  args: readonly string[],
  options: { cwd?: string; env?: NodeJS.ProcessEnv } = {},
): Promise<Ran> {
  const { cwd = ROOT, env = {} } = options;
  // The shell reports what its children and theirs have used once they have ended.
  const script = '"$0" "$@"; code=$?; times >&3; exit $code';
  const child = spawn('sh', ['-c', script, file, ...args], {
    cwd,
    env: { ...process.env, ASTRO_TELEMETRY_DISABLED: '1', ...env },
    stdio: ['ignore', 'pipe', 'pipe', 'pipe'],
  });
  const [out, err, times] = [child.stdout, child.stderr, child.stdio[3]].map((stream) => {
    if (!(stream instanceof Readable)) throw new TypeError('a process without its output');
    return gathered(stream);
  });
  const from = performance.now();
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => {
      const clock = (performance.now() - from) / 1000;
      if (code === 0) resolve({ cpu: cpuIn(times?.() ?? ''), clock, out: out?.() ?? '' });
      else reject(new Error(`${[file, ...args].join(' ')} ended with ${code}.\n${out?.()}${err?.()}`));
    });
  });
}

/** Runs a program of this repository. */
export const runNode = (script: string, ...args: string[]): Promise<Ran> => run(process.execPath, [script, ...args]);

function gathered(stream: NodeJS.ReadableStream): () => string {
  const pieces: string[] = [];
  stream.setEncoding('utf8');
  stream.on('data', (piece: string) => pieces.push(piece));
  return () => pieces.join('');
}

/** The second line of `times`: user and system time of the children, as `0m1.230s 0m0.040s`. */
function cpuIn(times: string): number {
  const line = times.trim().split('\n')[1] ?? '';
  const parts = [...line.matchAll(/(\d+)m([\d.]+)s/g)];
  if (parts.length !== 2) throw new Error(`The shell gave no times: ${times}`);
  return parts.reduce((sum, [, minutes, seconds]) => sum + 60 * Number(minutes) + Number(seconds), 0);
}

export const busy = (): string =>
  loadavg()
    .map((load) => load.toFixed(1))
    .join(' ');
