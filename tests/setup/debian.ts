/** What the tests use and npm does not bring: programs and fonts from Debian, each with the packages that have it. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { LONG } from './long.ts';

export interface Need {
  /** The file, where Debian puts it. */
  readonly file: string;
  readonly packages: readonly string[];
  readonly why: string;
  /** Whether only `npm run test:long` needs it. */
  readonly long?: true;
}

export const NEEDS: readonly Need[] = [
  {
    file: '/usr/bin/chromium-headless-shell',
    packages: ['chromium-headless-shell'],
    why: 'the tests named *.page.test.ts open pages in a real browser',
  },
  {
    file: '/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf',
    packages: ['fonts-liberation'],
    why: 'tests/browser/engraving.page.test.ts measures text in a font as wide as Arial',
  },
  { file: '/usr/bin/sox', packages: ['sox'], why: 'tests of recordings make and filter them' },
  { file: '/usr/bin/tred', packages: ['graphviz'], why: 'the tests in tests/outside compare the path with its tred' },
  { file: '/usr/bin/aubioonset', packages: ['aubio-tools'], why: 'tests of sound measure onsets and pitches' },
  {
    file: '/usr/bin/python3',
    packages: ['python3-mido'],
    why: 'tests/outside/exchange reads MIDI files with its mido',
  },
  {
    file: '/usr/lib/python3/dist-packages/mido',
    packages: ['python3-mido'],
    why: 'tests/outside/exchange reads MIDI files with it',
  },
  { file: '/usr/bin/xmllint', packages: ['libxml2-utils'], why: 'tests/outside/exchange validates MusicXML' },
  { file: '/usr/bin/abc2midi', packages: ['abcmidi'], why: 'tests/outside/exchange reads ABC with it' },
  { file: '/usr/bin/mscore3', packages: ['musescore3'], why: 'tests/outside/exchange reads MusicXML with it' },
  { file: '/usr/bin/aubiopitch', packages: ['aubio-tools'], why: 'tests of sound measure onsets and pitches' },
  { file: '/usr/bin/firefox-esr', packages: ['firefox-esr'], why: 'tests/browser/engines drives it', long: true },
  {
    file: '/usr/bin/WebKitWebDriver',
    packages: ['webkit2gtk-driver', 'gstreamer1.0-plugins-good'],
    why: 'tests/browser/engines drives WebKitGTK with it',
    long: true,
  },
  {
    file: '/usr/bin/Xvfb',
    packages: ['xvfb'],
    why: 'tests/browser/engines shows WebKitGTK’s window in it',
    long: true,
  },
  {
    file: '/usr/bin/pulseaudio',
    packages: ['pulseaudio'],
    why: 'Firefox and WebKitGTK sound only where there is a device',
    long: true,
  },
  {
    file: '/usr/bin/parec',
    packages: ['pulseaudio-utils'],
    why: 'tests/browser/engines records what Firefox plays',
    long: true,
  },
];

/** What this run needs and the machine lacks. */
export const missing = (): readonly Need[] => NEEDS.filter(({ file, long }) => (LONG || !long) && !existsSync(file));

/** What to type to have what is missing. */
export const howToInstall = (needs: readonly Need[]): string =>
  needs
    .map(
      ({ file, packages, why }) =>
        `${file} is missing, and ${why}.\nInstall it with: sudo apt-get install ${packages.join(' ')}`,
    )
    .join('\n');

/** The path of a program of {@link NEEDS}. Where it is missing, throws an error that names its package. */
export function programAt(name: string): string {
  const need = NEEDS.find(({ file }) => file === `/usr/bin/${name}`);
  if (!need) throw new Error(`${name} is not in the list of what the tests need (tests/setup/debian.ts).`);
  if (!existsSync(need.file)) throw new Error(howToInstall([need]));
  return need.file;
}

interface RunOptions {
  readonly input?: string;
  /** Whether what it prints as errors is wanted, too. */
  readonly errors?: boolean;
  /** Whether it may end with an error. */
  readonly fails?: boolean;
}

/**
 * Runs such a program and gives what it prints; what it prints as errors comes after, where `errors` says so. Throws where it
 * is missing or fails.
 */
export function run(
  name: string,
  args: readonly string[],
  { input = '', errors = false, fails = false }: RunOptions = {},
): string {
  const { status, stdout, stderr } = spawnSync(programAt(name), args, { input, encoding: 'utf8', maxBuffer: 1 << 28 });
  if (status !== 0 && !fails) throw new Error(`${name} ${args.join(' ')} failed:\n${stderr}`);
  return errors ? stdout + stderr : stdout;
}
