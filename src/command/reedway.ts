#!/usr/bin/env node
/** The command line. Its output may be piped to something that reads only the beginning: then it ends quietly. */
import { run } from './run.ts';
import { processTerminal } from './terminal.ts';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});
process.exitCode = await run(process.argv.slice(2), processTerminal());
