import type { Terminal } from '../../src/command/command.ts';
import { run } from '../../src/command/run.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, as if typed in a folder. */
export async function typed(line: readonly string[], cwd = '/', input = ''): Promise<Ran> {
  let out = '';
  let err = '';
  const terminal: Terminal = {
    cwd,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    progress: () => {},
    input: () => Buffer.from(input),
  };
  const code = await run(line, terminal);
  return { code, out, err };
}
