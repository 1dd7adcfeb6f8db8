#!/usr/bin/env node
/** The command line. Its output may be piped to something that reads only the beginning: then it ends quietly. */
import { enableCompileCache } from 'node:module';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});
// What was compiled once need not be again, which is most of what a short command does. Hence no import above.
enableCompileCache();
const { run } = await import('./run.ts');
const { processTerminal } = await import('./terminal/terminal.ts');
process.exitCode = await run(process.argv.slice(2), processTerminal());
