/** A record of years of practice, for its size and for how long it takes to open. */
import { addPractice } from '../../../src/browser/progress/practice-log.ts';
import type { Entry, Progress } from '../../../src/browser/progress/record.ts';

const BLOCKS_A_DAY = 8;
const LESSONS = 30;
const BLOCKS_OF_LESSON = 6;
const DEVICE = 'device01';
const FROM = new Date(2022, 0, 1, 12);

const blockAt = (index: number): string =>
  `a-lesson-with-a-name-${Math.floor(index / BLOCKS_OF_LESSON) % LESSONS}/exercise-${index % BLOCKS_OF_LESSON}`;

const entryOfDevice = (value: unknown, counter = 1): Entry => ({ counter, device: DEVICE, at: FROM.getTime(), value });

/**
 * The record of a student who practises eight blocks of a course every day: as the device keeps it (`compact`), and as it would be if
 * no month were summed up. All blocks are done and have settings.
 */
export function practisedFor(years: number): { readonly detailed: Progress; readonly compact: Progress } {
  const months = new Map<string, Record<string, Record<string, number[]>>>();
  for (let day = 0; day < years * 365; day++) {
    const at = new Date(FROM.getFullYear(), 0, 1 + day, 12);
    const key = `${DEVICE}/${at.getFullYear()}-${String(at.getMonth() + 1).padStart(2, '0')}`;
    const month = months.get(key) ?? {};
    months.set(key, month);
    for (let number = 0; number < BLOCKS_A_DAY; number++) {
      const block = blockAt(Math.floor(day / 4) + number * 3);
      month[block] = { ...month[block], [at.getDate()]: [200 + ((day * 37) % 400), 12 + (day % 9), 60 + (day % 70)] };
    }
  }
  const detailed = new Map([...months].map(([key, month], index) => [key, entryOfDevice(month, index + 1)]));
  const compact = new Map(detailed);
  const last = new Date(FROM.getFullYear(), 0, years * 365, 12);
  const more = addPractice(new Map([['log', detailed]]), DEVICE, last, blockAt(0), { seconds: 0, rounds: 0, tempo: 0 });
  // The first is of the last day itself, to which nothing was added.
  for (const { key, value } of more.slice(1)) compact.set(key, entryOfDevice(value, 1000));
  const blocks = Array.from({ length: LESSONS * BLOCKS_OF_LESSON }, (_, index) => blockAt(index));
  const marks: Progress = new Map([
    ['blocks', new Map(blocks.map((block) => [block, entryOfDevice(true)]))],
    [
      'settings',
      new Map(blocks.map((block) => [block, entryOfDevice({ tempo: 66, swing: 0.667, loop: true, bars: [2, 3] })])),
    ],
  ]);
  return { detailed: new Map([...marks, ['log', detailed]]), compact: new Map([...marks, ['log', compact]]) };
}
