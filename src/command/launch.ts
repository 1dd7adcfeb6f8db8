#!/usr/bin/env node
/**
 * What `reedway` starts where the package is installed. An older Node could not load the rest, so this file loads nothing
 * of it: it continues with the Node that the package `node` brings, if one lies near, or says what is needed.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What Astro needs. */
const [MAJOR, MINOR] = [22, 12];

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major > MAJOR || (major === MAJOR && minor >= MINOR)) {
  await import('./reedway.ts');
} else {
  const node = nearbyNode();
  if (node === undefined) {
    console.error(
      `Reedway needs Node ${MAJOR}.${MINOR} or later, and this is ${process.versions.node}.\n` +
        'Install a newer one, or put one beside Reedway with: npm install node',
    );
    process.exitCode = 1;
  } else {
    const here = fileURLToPath(import.meta.url);
    const command = join(dirname(here), 'reedway.js');
    const child = spawn(node, [command, ...process.argv.slice(2)], { stdio: 'inherit' });
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal));
    child.on('exit', (code) => {
      process.exitCode = code ?? 1;
    });
  }
}

/** The program of the package `node`, looked for from here and from where the command was typed. */
function nearbyNode(): string | undefined {
  for (const from of [import.meta.url, join(process.cwd(), 'x')]) {
    try {
      const program = join(
        dirname(createRequire(from).resolve('node/package.json')),
        'bin',
        process.platform === 'win32' ? 'node.exe' : 'node',
      );
      if (existsSync(program)) return program;
    } catch {
      // Not there.
    }
  }
  return undefined;
}
