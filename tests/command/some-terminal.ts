import type { Terminal } from '../../src/command/command.ts';
import { run } from '../../src/command/run.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in this process, as if typed in a folder, with this on its standard input. */
export async function typed(line: readonly string[], cwd = '/', input?: string | Uint8Array): Promise<Ran> {
  let out = '';
  let err = '';
  const terminal: Terminal = {
    cwd,
    input: async () => Buffer.from(input ?? ''),
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    progress: () => {},
  };
  const code = await run(line, terminal);
  return { code, out, err };
}
