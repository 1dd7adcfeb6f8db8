/** What a student's record costs after years of daily practice: its size, and what a page spends on opening it. */

import { addPractice } from '../src/browser/progress/practice-log.ts';
import { merge, NOTHING, readRecord, writeRecord } from '../src/browser/progress/record.ts';
import { practisedFor } from '../tests/browser/progress/five-years.ts';
import { atMost, kilobytes, row, type Section, seconds } from './table.ts';

const YEARS = 5;
const ROUNDS = 30;
const AIM = { size: 1024 * 1024, open: 0.05 };

/** The median of some runs by the clock, in seconds: what a page does once is not compiled as what it does often. */
function median(work: () => unknown): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const from = performance.now();
    work();
    return (performance.now() - from) / 1000;
  });
  return times.sort((a, b) => a - b)[ROUNDS >> 1] ?? 0;
}

export async function progress(): Promise<Section> {
  const { detailed, compact } = practisedFor(YEARS);
  const rows = (
    [
      ['as it is kept', compact],
      ['no month summed up', detailed],
    ] as const
  ).flatMap(([name, record]) => {
    const text = writeRecord(record);
    const from = performance.now();
    merge(NOTHING, readRecord(text).progress);
    const first = (performance.now() - from) / 1000;
    return [
      atMost(`${YEARS} years, eight blocks a day, ${name}`, text.length, AIM.size, kilobytes),
      atMost('    opened (read and merged), the first time', first, AIM.open, seconds),
      atMost(
        '    opened, in the middle of many',
        median(() => merge(NOTHING, readRecord(text).progress)),
        AIM.open,
        seconds,
      ),
      row('    merged with another device’s', seconds(median(() => merge(readRecord(text).progress, detailed)))),
      row(
        '    practice added and written',
        seconds(
          median(() => {
            const amounts = { seconds: 60, rounds: 4, tempo: 66 };
            const [change] = addPractice(record, 'device01', new Date(2026, 11, 31), 'a/0', amounts);
            const entry = { counter: 5000, device: 'device01', at: 0, value: change?.value };
            return writeRecord(merge(record, new Map([['log', new Map([[change?.key ?? '', entry]])]])));
          }),
        ),
      ),
    ];
  });
  return { title: 'A student’s record', how: 'By the clock, in Node.', rows };
}
