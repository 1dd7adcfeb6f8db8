/**
 * What checking costs: `reedway check` on made-up courses from small to far too large, each in a process of its own, and
 * the memory a loaded course takes.
 *
 *     node bench/checking.ts [ROUNDS]
 */
import { join } from 'node:path';
import { loadCourse } from '../src/course/load.ts';
import { writeCourse } from './course.ts';
import { inFolder } from './folder.ts';
import { busy, least, runNode, type Spent, spentOn } from './measure.ts';
import { atMost, count, megabytes, type Row, row, type Section, seconds } from './table.ts';

const BLOCKS = 6;
const SIZES = [100, 300, 1000, 3000] as const;
/** What a loaded course is to cost, in lessons and seconds. */
const AIM = { lessons: 1000, seconds: 3 };

interface Loaded {
  readonly events: number;
  readonly notes: number;
  /** Seconds of the one thread that reads. */
  readonly thread: number;
  /** Bytes once it is read and what is not needed is thrown away. */
  readonly heap: number;
  readonly peak: number;
}

export async function checking(rounds = 3): Promise<Section> {
  const rows: Row[] = [];
  let before: { lessons: number; thread: number } | undefined;
  for (const lessons of SIZES) {
    await inFolder(async (folder) => {
      writeCourse(folder, { lessons, blocks: BLOCKS });
      const runs: Spent[] = [];
      const loads: Loaded[] = [];
      for (let round = 0; round < rounds; round++) {
        runs.push(await runNode('src/command/reedway.ts', 'check', folder));
        loads.push(JSON.parse((await runNode('bench/checking.ts', 'load', folder)).out) as Loaded);
      }
      const { cpu, clock } = least(runs);
      const loaded = loads.reduce((a, b) => (b.thread < a.thread ? b : a));
      const title = `${count(lessons)} lessons, ${count(lessons * BLOCKS)} blocks, ${count(loaded.events)} events`;
      rows.push(
        lessons === AIM.lessons
          ? atMost(`${title}: reedway check, by the clock`, clock, AIM.seconds, seconds)
          : row(`${title}: reedway check, by the clock`, seconds(clock)),
      );
      rows.push(row('    processor time, garbage collection beside it included', seconds(cpu)));
      rows.push(row('    processor time of the thread that reads', seconds(loaded.thread)));
      rows.push(row('    events a second of that thread', count(loaded.events / loaded.thread)));
      rows.push(
        row(
          '    memory the course takes, and the most the process took',
          `${megabytes(loaded.heap)}, ${megabytes(loaded.peak)}`,
        ),
      );
      if (before) {
        const growth = Math.log(loaded.thread / before.thread) / Math.log(lessons / before.lessons);
        rows.push(
          row(
            `    time grows from ${count(before.lessons)} lessons with their number to the power of`,
            growth.toFixed(2),
          ),
        );
      }
      before = { lessons, thread: loaded.thread };
    });
  }
  return {
    title: 'Checking a course',
    how: `${BLOCKS} blocks and about 600 words a lesson, no problem in any; least of ${rounds} rounds; load ${busy()}.`,
    rows,
  };
}

async function loaded(folder: string): Promise<Loaded> {
  const from = process.threadCpuUsage();
  const { value: course } = await spentOn(() => loadCourse(folder));
  const { user, system } = process.threadCpuUsage(from);
  if (course.problems.length > 0) throw new Error(`The made-up course has a problem: ${course.problems[0]?.message}`);
  const bars = course.lessons.flatMap(({ blocks }) => blocks.flatMap(({ score }) => score?.bars ?? []));
  const events = bars.flatMap((bar) => bar.events);
  const notes = events.reduce((sum, event) => sum + (event.kind === 'sound' ? event.notes.length : 0), 0);
  globalThis.gc?.();
  const { heapUsed } = process.memoryUsage();
  return {
    events: events.length,
    notes,
    thread: (user + system) / 1e6,
    heap: heapUsed,
    peak: 1024 * process.resourceUsage().maxRSS,
  };
}

if (import.meta.main) {
  const [what, folder] = process.argv.slice(2);
  if (what === 'load' && folder !== undefined) {
    (await import('node:v8')).setFlagsFromString('--expose-gc');
    globalThis.gc ??= (await import('node:vm')).runInNewContext('gc') as NodeJS.GCFunction;
    console.log(JSON.stringify(await loaded(join(folder))));
  } else (await import('./table.ts')).print(await checking(what === undefined ? undefined : Number(what)));
}
