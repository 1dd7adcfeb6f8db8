#!/usr/bin/env node
/** The command line. Its output may be piped to something that reads only the beginning: then it ends quietly. */
import { enableCompileCache } from 'node:module';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit();
});
// Compiled code is cached, since compiling is most of the work of a short command. This has to run before any import.
enableCompileCache();
const { run } = await import('./run.ts');
const { processTerminal } = await import('./terminal/terminal.ts');
process.exitCode = await run(process.argv.slice(2), processTerminal());
