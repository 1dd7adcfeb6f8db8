#!/usr/bin/env node
/**
 * The command line. Its output may go to something that reads only the beginning, or to a disk that is full: then it ends without a
 * word, since there is nobody to say it to, or with one line.
 */
import { enableCompileCache } from 'node:module';

process.stdout.on('error', ({ code }: NodeJS.ErrnoException) => {
  if (code === 'EPIPE') process.exit();
  console.error(`The output could not be written: ${code === 'ENOSPC' ? 'the disk is full' : code}.`);
  process.exit(1);
});
process.stderr.on('error', () => process.exit(1));
// Compiled code is cached, since compiling is most of the work of a short command. This has to run before any import.
enableCompileCache();
const { run } = await import('./run.ts');
const { processTerminal } = await import('./terminal/terminal.ts');
process.exitCode = await run(process.argv.slice(2), processTerminal());
