/**
 * What playing costs: processor time of the whole browser while a twelve-bar plays with its band, as a share of one core,
 * less what the same page costs in silence.
 *
 *     node bench/sound.ts [SECONDS]
 *
 * It prints the sound alone (the audio thread and the scheduling), and the player as a student sees it, with its cursor
 * drawn. All are measured by turns, three times each, so that what else the machine does at one moment does not decide.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { bundle, openBrowser, serve } from '../tests/browser/sound/browser-sound.ts';
import { lessonPage } from '../tests/browser/sound/lesson-page.ts';
import { playbackFrom, SETTINGS } from '../tests/schedule/some-block.ts';

const SECONDS = Number(process.argv[2] ?? 15);
const TURNS = 3;
/** Linux counts processor time in hundredths of a second. */
const TICK = 0.01;

const BLOCK = `harp: A
position: 2
tempo: 110
feel: shuffle
form: twelve-bar

${Array(3).fill("-2 -3'> -3 -4 5 -4 -3' -2 | 2 -2 3 -2 -(1 2 3) = -2 2 | -4 -4'> -4 5 6 5 -4 -3 | -2 = = -1 -2 -3' -3 -4").join(' | ')}
`;

/** Processor seconds of a process and everything it has started. */
function secondsOf(root: number): number {
  const parents = new Map<number, { parent: number; seconds: number }>();
  for (const entry of readdirSync('/proc')) {
    if (!/^\d+$/.test(entry)) continue;
    try {
      // The name in brackets may hold anything; the numbers come after it.
      const fields = readFileSync(`/proc/${entry}/stat`, 'utf8')
        .replace(/^.*\) /, '')
        .split(' ');
      const seconds = (Number(fields[11]) + Number(fields[12])) * TICK;
      parents.set(Number(entry), { parent: Number(fields[1]), seconds });
    } catch {
      // It has ended since it was listed.
    }
  }
  const belongs = (pid: number): boolean => pid === root || (pid > 1 && belongs(parents.get(pid)?.parent ?? 0));
  return [...parents].reduce((sum, [pid, { seconds }]) => sum + (belongs(pid) ? seconds : 0), 0);
}

const wait = (seconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, seconds * 1000));

/** The browser as the one child of this process that was not there before. */
function childrenOf(pid: number): number[] {
  return readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean).map(Number);
}

async function measured(browser: number, run: () => Promise<void>): Promise<number> {
  await run();
  await wait(3);
  const [before, from] = [secondsOf(browser), performance.now()];
  await wait(SECONDS);
  return (100 * (secondsOf(browser) - before)) / ((performance.now() - from) / 1000);
}

const script = await bundle(new URL('../tests/browser/sound/page.ts', import.meta.url).pathname);
const files = await lessonPage([BLOCK]);
const served = await serve({
  ...files,
  '/bare': {
    type: 'text/html',
    body: '<!doctype html><title>Bare</title><script type="module" src="/page.js"></script>',
  },
  '/page.js': { type: 'text/javascript', body: script },
});
const others = new Set(childrenOf(process.pid));
const browser = await openBrowser();
const pid = childrenOf(process.pid).find((child) => !others.has(child));
if (pid === undefined) throw new Error('the browser is not a child of this process');
const page = await browser.newPage({ viewport: { width: 1200, height: 1000 } });

const playback = playbackFrom(BLOCK);
const music = { playback, settings: { ...SETTINGS, tempo: 110, swing: 2 / 3, loop: true } };

interface Turn {
  readonly bare: number;
  readonly sound: number;
  readonly silent: number;
  readonly player: number;
}

async function turn(browser: number): Promise<Turn> {
  await page.goto(`${served.address}bare`);
  const bare = await measured(browser, async () => {});
  const sound = await measured(browser, () =>
    page.evaluate(
      (music) =>
        (globalThis as unknown as { soundTest: { play: (music: object) => Promise<void> } }).soundTest.play(music),
      music,
    ),
  );
  await page.goto(served.address);
  const silent = await measured(browser, async () => {});
  const player = await measured(browser, async () => {
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Loop', exact: true }).click();
  });
  return { bare, sound, silent, player };
}

const turns: Turn[] = [];
for (let count = 0; count < TURNS; count++) turns.push(await turn(pid));
await browser.close();
served.close();

const percent = (share: number): string => `${share.toFixed(1)} %`;
function inWords(shareOf: (turn: Turn) => number): string {
  const shares = turns.map(shareOf).sort((a, b) => a - b);
  const median = shares[Math.floor(TURNS / 2)] ?? Number.NaN;
  return `${percent(median).padStart(7)}   (${shares.map(percent).join(', ')})`;
}
console.log(`Processor time above the same page in silence, of one core, the middle of ${TURNS} times ${SECONDS} s:`);
console.log(`  the sound alone, tune and band     ${inWords(({ sound, bare }) => sound - bare)}`);
console.log(`  the player, with its cursor drawn  ${inWords(({ player, silent }) => player - silent)}`);
