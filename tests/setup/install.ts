/**
 * Installs what the tests need from Debian (debian.ts), each only where it is missing and this process may install it.
 * Otherwise it says what to install, and the tests that need it say so too.
 */
import { execFileSync, type SpawnSyncOptions, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { howToInstall, missing } from './debian.ts';

const needs = missing();
if (needs.length > 0) {
  const packages = [...new Set(needs.flatMap((need) => need.packages))];
  if (process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.error(`Installing what the tests lack: ${packages.join(', ')}`);
    const options: SpawnSyncOptions = {
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    };
    // Lists that are too old are the usual reason for a package not to be found; one that cannot be fetched may not matter.
    spawnSync('apt-get', ['-q', 'update'], options);
    execFileSync('apt-get', ['-q', 'install', '-y', '--no-install-recommends', ...packages], options);
  } else {
    console.error(howToInstall(needs));
    process.exitCode = 1;
  }
}
