/**
 * Installs what the tests use and npm does not bring: programs from Debian, each only where it is missing and this
 * process may install it. Otherwise it says what to install, and the tests that want it say so too.
 */
import { execFileSync, type SpawnSyncOptions, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

interface Need {
  /** The program, where Debian puts it. */
  readonly file: string;
  readonly packages: readonly string[];
  readonly why: string;
}

const NEEDS: readonly Need[] = [
  { file: '/usr/bin/chromium', packages: ['chromium'], why: 'the tests in tests/browser open pages in a real browser' },
  { file: '/usr/bin/sox', packages: ['sox'], why: 'the tests in tests/browser/sound make and filter recordings' },
  { file: '/usr/bin/tred', packages: ['graphviz'], why: 'the tests in tests/outside compare the path with its tred' },
  {
    file: '/usr/bin/aubioonset',
    packages: ['aubio-tools'],
    why: 'the tests in tests/browser/sound measure recordings',
  },
];

const missing = NEEDS.filter(({ file }) => !existsSync(file));
if (missing.length > 0) {
  const packages = missing.flatMap((need) => need.packages);
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
    for (const { file, packages: names, why } of missing) {
      console.error(`${file} is missing, and ${why}.\nInstall it with: sudo apt-get install ${names.join(' ')}`);
    }
    process.exitCode = 1;
  }
}
