import { readFileSync } from 'node:fs';
import type { Terminal } from '../command.ts';

/** Milliseconds: work shorter than this shows no progress. */
const PATIENCE = 400;
const PACE = 100;

/** The terminal of this process. */
export function processTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  const started = performance.now();
  let shown = '';
  let last = started;
  return {
    // npm moves to the package's folder before it runs a script, and says where it was typed.
    cwd: (env['npm_lifecycle_event'] === 'reedway' && env['INIT_CWD']) || process.cwd(),
    out(text) {
      clear();
      stdout.write(text);
    },
    err(text) {
      clear();
      stderr.write(text);
    },
    progress(text) {
      const now = performance.now();
      if (text === '') clear();
      else if (stderr.isTTY && now - started > PATIENCE && now - last > PACE) {
        clear();
        stderr.write(text);
        [shown, last] = [text, now];
      }
    },
    input: () => readFileSync(0),
  };

  function clear(): void {
    if (shown !== '') stderr.write('\r\x1b[2K');
    shown = '';
  }
}
