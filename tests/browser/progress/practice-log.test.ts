/** The log of practice: what it adds up to, how large it grows, and that a month that was summed up is worth its days. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addPractice, type LoggedPractice, practiceIn } from '../../../src/browser/progress/practice-log.ts';
import {
  merge,
  NOTHING,
  nextCounter,
  type Progress,
  readRecord,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { cases } from '../../setup/long.ts';
import { practisedFor } from './five-years.ts';
import { entry, record } from './some-progress.ts';

/** The log after a device has practised a block. */
function practised(
  log: Progress,
  device: string,
  at: Date,
  block: string,
  { seconds = 60, rounds = 1, tempo = 80 } = {},
): Progress {
  return addPractice(log, device, at, block, { seconds, rounds, tempo }).reduce(
    (all, { key, value }) => merge(all, record({ log: { [key]: entry(value, nextCounter(all), device) } })),
    log,
  );
}

const day = (date: string): Date => new Date(`${date}T12:00:00`);
const totals = (practice: readonly LoggedPractice[]) => {
  const blocks = new Map<string, readonly number[]>();
  for (const { block, seconds, rounds, tempo } of practice) {
    const [s = 0, r = 0, t = 0] = blocks.get(block) ?? [];
    blocks.set(block, [s + seconds, r + rounds, Math.max(t, tempo)]);
  }
  return new Map([...blocks].sort());
};

describe('the log of practice', () => {
  test('adds up time and rounds of a day, and has the highest tempo', () => {
    let log = practised(NOTHING, 'd', day('2026-11-28'), 'a/0', { seconds: 59.6, tempo: 66.4 });
    log = practised(log, 'd', day('2026-11-28'), 'a/0', { seconds: 30, rounds: 4, tempo: 60 });
    log = practised(log, 'd', day('2026-11-29'), 'a/0');
    log = practised(log, 'd', day('2026-12-01'), '__proto__');
    expect(practiceIn(log)).toEqual([
      { date: '2026-11-28', block: 'a/0', seconds: 90, rounds: 5, tempo: 66, days: 1 },
      { date: '2026-11-29', block: 'a/0', seconds: 60, rounds: 1, tempo: 80, days: 1 },
      { date: '2026-12-01', block: '__proto__', seconds: 60, rounds: 1, tempo: 80, days: 1 },
    ]);
    expect([...(log.get('log')?.keys() ?? [])]).toEqual(['d/2026-11', 'd/2026-12']);
  });

  test('has what two devices did on one day as one day, and blocks under their names of now', () => {
    const log = merge(
      practised(NOTHING, 'phone', day('2026-11-28'), 'old/0'),
      practised(NOTHING, 'tablet', day('2026-11-28'), 'a/0', { tempo: 90 }),
    );
    expect(practiceIn(log, (block) => block.replace('old/', 'a/'))).toEqual([
      { date: '2026-11-28', block: 'a/0', seconds: 120, rounds: 2, tempo: 90, days: 1 },
    ]);
  });

  test('of more than two years ago is by months, with the same sums; what another device set is left alone', () => {
    let log = practised(NOTHING, 'd', day('2024-10-30'), 'a/0');
    log = practised(log, 'd', day('2024-10-31'), 'a/0', { tempo: 70 });
    log = practised(log, 'd', day('2024-11-01'), 'a/0');
    log = merge(log, practised(NOTHING, 'e', day('2024-10-31'), 'a/0'));
    const detailed = log;
    log = practised(log, 'd', day('2026-11-28'), 'a/0');
    expect(practiceIn(log)).toEqual([
      { date: '2024-10', block: 'a/0', seconds: 120, rounds: 2, tempo: 80, days: 2 },
      { date: '2024-10-31', block: 'a/0', seconds: 60, rounds: 1, tempo: 80, days: 1 },
      { date: '2024-11-01', block: 'a/0', seconds: 60, rounds: 1, tempo: 80, days: 1 },
      { date: '2026-11-28', block: 'a/0', seconds: 60, rounds: 1, tempo: 80, days: 1 },
    ]);
    // An older copy does not bring the days back beside their sum.
    expect(merge(detailed, log)).toEqual(log);
    // A clock that is set back adds to the sum.
    expect(practiceIn(practised(log, 'd', day('2024-10-05'), 'a/0'))[0]).toMatchObject({ seconds: 180, days: 2 });
  });

  test('leaves out what is not valid', () => {
    const log = record({
      log: {
        'd/2026-11': entry({ a: { 1: [1, 2], 2: [1, 1, -1], 3: [1, 1, 1] }, b: 7 }, 1),
        'd/2026-12': entry(null, 1),
      },
    });
    expect(practiceIn(log).map(({ date }) => date)).toEqual(['2026-11-03']);
  });

  test('is the same merged, summed up or not, and no practice is lost or counted twice', () => {
    const moment = fc.date({ min: day('2022-01-01'), max: day('2030-01-01'), noInvalidDate: true });
    const practice = fc.tuple(moment, fc.constantFrom('a/0', 'a/1', 'b/0'), fc.integer({ min: 5, max: 500 }));
    const run = (
      device: string,
      all: readonly (readonly [Date, string, number])[],
      from: Progress = NOTHING,
    ): Progress[] => {
      const states = [from];
      for (const [at, block, seconds] of all)
        states.push(practised(states.at(-1) ?? NOTHING, device, at, block, { seconds }));
      return states;
    };
    const times = fc.array(practice, { maxLength: 8 });
    fc.assert(
      fc.property(times, times, fc.nat(), (onPhone, onTablet, pick) => {
        const phone = run('phone', onPhone);
        const tablet = run('tablet', onTablet);
        const [last, other] = [phone.at(-1) ?? NOTHING, tablet.at(-1) ?? NOTHING];
        const older = phone[pick % phone.length] ?? NOTHING;
        const merged = merge(last, other);
        expect(merge(merge(older, other), last)).toEqual(merged);
        expect(merge(other, merge(last, older))).toEqual(merged);
        expect(merge(merged, older)).toBe(merged);
        const all = new Map<string, number>();
        for (const [, block, seconds] of [...onPhone, ...onTablet]) all.set(block, (all.get(block) ?? 0) + seconds);
        expect([...totals(practiceIn(merged))].map(([block, [seconds]]) => [block, seconds])).toEqual([...all].sort());
      }),
      { numRuns: cases(100, 1000) },
    );
  });

  test('of five years, eight blocks a day, is under 1 MB, with or without its months summed up', () => {
    const { detailed, compact } = practisedFor(5);
    const [long, short] = [writeRecord(detailed), writeRecord(compact)];
    expect(long.length).toBeLessThan(400 * 1024);
    expect(short.length).toBeLessThan(long.length * 0.75);
    expect(totals(practiceIn(compact))).toEqual(totals(practiceIn(detailed)));
    expect(readRecord(short)).toMatchObject({ kind: 'sound' });
  });
});
