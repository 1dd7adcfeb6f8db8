/**
 * What the servers do when much is asked of them: `reedway host` with a thousand clients at once, and `reedway serve` while
 * an author saves again and again. Figures by the clock: they say something on a machine that does nothing else.
 *
 *     node bench/load.ts
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Agent, get } from 'node:http';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { withoutTraces } from './building.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { busy, ROOT, runNode } from './measure.ts';
import { atMost, count, megabytes, print, type Row, row, type Section, seconds } from './table.ts';

const CLIENTS = 1000;
/** Pages that each client reads, one after the other, over the connection it keeps. */
const PAGES_EACH = 20;
const SAVES = 500;
/** Characters at the end of a page that are looked at; the last words of a lesson lie in them. */
const END = 20_000;
const LESSONS = 24;
const BLOCKS = 6;

export const load = (): Promise<Section> =>
  inFolder(async (folder) => {
    const [course, site] = [join(folder, 'course'), join(folder, 'site')];
    writeCourse(course, { lessons: LESSONS, blocks: BLOCKS });
    await withoutTraces(async () => {
      await runNode('src/command/reedway.ts', 'build', course, '--out', site);
    });
    return {
      title: 'Servers under load',
      how: `${LESSONS} lessons of ${BLOCKS} blocks; clients and server on this machine, by the clock; load ${busy()}.`,
      rows: [...(await hosting(site)), ...(await serving(course))],
    };
  });

async function hosting(site: string): Promise<Row[]> {
  const { address, child } = await started('host', site);
  try {
    const pages = readdirSync(join(site, 'lessons')).map((name) => `${address}lessons/${name}/`);
    const agent = new Agent({ keepAlive: true, maxSockets: CLIENTS });
    const from = performance.now();
    const clients = Array.from({ length: CLIENTS }, async (_, client) => {
      const answers: Answer[] = [];
      for (let at = 0; at < PAGES_EACH; at++)
        answers.push(await ask(pages[(client + at) % pages.length] as string, agent));
      return answers;
    });
    const answers = (await Promise.all(clients)).flat();
    const clock = (performance.now() - from) / 1000;
    agent.destroy();
    return [
      row(
        `host, ${count(CLIENTS)} clients at once, ${PAGES_EACH} lesson pages each: pages a second`,
        count(answers.length / clock),
      ),
      ...answered(answers),
      row('    memory of the server at its most', megabytes(peakOf(child))),
    ];
  } finally {
    child.kill();
  }
}

async function serving(course: string): Promise<Row[]> {
  const { address, child } = await started('serve', course);
  try {
    const [name = ''] = readdirSync(join(course, 'lessons'));
    const [file, page] = [join(course, 'lessons', name), `${address}lessons/${name.replace(/\.mdx$/, '')}/`];
    const text = readFileSync(file, 'utf8');
    const agent = new Agent({ keepAlive: true });
    await ask(page, agent);
    const answers: Promise<Answer>[] = [];
    for (let save = 1; save <= SAVES; save++) {
      writeFileSync(file, `${text}\nSaved ${save} times.\n`);
      answers.push(ask(page, agent));
      await sleep(20);
    }
    const saved = performance.now();
    const all = await Promise.all(answers);
    while (!(await ask(page, agent)).end.includes(`Saved ${SAVES} times.`)) await sleep(50);
    agent.destroy();
    return [
      row(
        `serve, ${SAVES} requests during ${SAVES} saves: from the last save to its page`,
        seconds((performance.now() - saved) / 1000),
      ),
      ...answered(all),
      row('    memory of the server at its most', megabytes(peakOf(child))),
    ];
  } finally {
    child.kill();
  }
}

interface Answer {
  /** It came, to its last byte. */
  readonly whole: boolean;
  /** The end of it. */
  readonly end: string;
  /** In seconds. */
  readonly time: number;
}

function ask(url: string, agent: Agent): Promise<Answer> {
  const from = performance.now();
  return new Promise((resolve) => {
    let end = '';
    const answer = (status = 0): void =>
      resolve({
        whole: status === 200 && end.trimEnd().endsWith('</html>'),
        end,
        time: (performance.now() - from) / 1000,
      });
    get(url, { agent }, (response) => {
      response.setEncoding('utf8');
      response.on('data', (piece: string) => {
        end = (end + piece).slice(-END);
      });
      response.on('end', () => answer(response.statusCode));
      response.on('error', () => answer());
    }).on('error', () => answer());
  });
}

function answered(answers: readonly Answer[]): Row[] {
  const times = answers.map(({ time }) => time).sort((a, b) => a - b);
  const at = (share: number): number => times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? 0;
  const failed = answers.filter(({ whole }) => !whole);
  return [
    atMost('    requests that fail or are cut short', failed.length, 0, count),
    row('    answered after: median, 99 of 100, the last', [at(0.5), at(0.99), at(1)].map(seconds).join(', ')),
  ];
}

/** The most memory a process has held, in bytes. */
const peakOf = ({ pid }: ChildProcess): number =>
  Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) * 1024;

function started(command: string, folder: string): Promise<{ address: string; child: ChildProcess }> {
  const child = spawn(process.execPath, ['src/command/reedway.ts', command, folder, '--port', '4900'], {
    cwd: ROOT,
    env: { ...process.env, ASTRO_TELEMETRY_DISABLED: '1' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return new Promise((resolve, reject) => {
    child.stdout.on('data', (data) => {
      const address = /http:\S+/.exec(String(data))?.[0];
      if (address) resolve({ address, child });
    });
    child.on('close', (code) => reject(new Error(`reedway ${command} ended with ${code}.`)));
  });
}

if (import.meta.main) print(await load());
