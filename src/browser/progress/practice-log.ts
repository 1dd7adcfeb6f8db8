/**
 * How long what was practised: for each device and month one entry, which that device alone sets. Within it, for each block and day, the
 * time, the rounds and the tempo reached. Five years of daily practice are some hundred kilobytes; months of more than two years ago
 * are kept as sums of the month, so that the log grows by few kilobytes a month. The device sets a month that it has summed up again,
 * and so the sum counts over every older copy.
 */
import type { Progress } from './record.ts';

/** What was practised of a block on one day, or in one month. */
export interface Practised {
  readonly seconds: number;
  /** Times it was played through, or its loop was. */
  readonly rounds: number;
  /** The highest that a round was played to its end at, in the unit of {@link PlaySettings}; 0 where none was. */
  readonly tempo: number;
}

/** {@link Practised} with what it is about. */
export interface LoggedPractice extends Practised {
  /** `2026-11-28`, by the calendar of the device; `2026-11` for a month that was summed up. */
  readonly date: string;
  /** `lesson/block`. */
  readonly block: string;
  /** Days on which it was practised. */
  readonly days: number;
}

/** By block and day of the month: seconds, rounds, tempo. Day 0 stands for the whole month, with the number of days as a fourth. */
type Month = Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>;

/** The sum of a month is kept under this day. */
const WHOLE_MONTH = '0';
/** Months that are kept day by day, before the present one. */
const DETAILED_MONTHS = 24;

const entriesOf = (value: unknown): [string, unknown][] =>
  typeof value === 'object' && value !== null ? Object.entries(value) : [];

/** The month of an entry; what is not valid in it is left out. */
function readMonth(value: unknown): Month {
  const isAmount = (one: unknown): one is number => typeof one === 'number' && one >= 0;
  return Object.fromEntries(
    entriesOf(value).map(([block, days]) => [
      block,
      Object.fromEntries(
        entriesOf(days).flatMap(([day, amounts]): [string, number[]][] =>
          Array.isArray(amounts) && amounts.length >= 3 && amounts.every(isAmount) ? [[day, amounts]] : [],
        ),
      ),
    ]),
  );
}

/** The blocks in the value of an entry of the log, as `lesson/block`. */
export const practisedBlocks = (value: unknown): readonly string[] => entriesOf(value).map(([block]) => block);

const padded = (number: number): string => String(number).padStart(2, '0');
const monthOf = (day: Date): string => `${day.getFullYear()}-${padded(day.getMonth() + 1)}`;

/** A change of the log: entries that the device is to set. */
export interface LogChange {
  readonly key: string;
  readonly value: Month;
}

/**
 * What a device has to set when something was practised at a moment of its clock: the month of that day with the practice added, and
 * older months of its own that are to be summed up.
 */
export function addPractice(
  progress: Progress,
  device: string,
  now: Date,
  block: string,
  { seconds, rounds, tempo }: Practised,
): readonly LogChange[] {
  const key = `${device}/${monthOf(now)}`;
  const month = readMonth(progress.get('log')?.get(key)?.value);
  const days = ownOf(month, block) ?? {};
  // Where a clock was far ahead the month may be summed up already.
  const day = days[WHOLE_MONTH] ? WHOLE_MONTH : String(now.getDate());
  const [before = 0, roundsBefore = 0, tempoBefore = 0, ...more] = days[day] ?? [];
  const amounts = [
    Math.round(before + seconds),
    roundsBefore + rounds,
    Math.max(tempoBefore, Math.round(tempo)),
    ...more,
  ];
  return [{ key, value: { ...month, [block]: { ...days, [day]: amounts } } }, ...summedUp(progress, device, now)];
}

const ownOf = <Value>(all: Readonly<Record<string, Value>>, key: string): Value | undefined =>
  Object.hasOwn(all, key) ? all[key] : undefined;

/** The device’s own months of long ago that are kept day by day, each as sums of the month. */
function summedUp(progress: Progress, device: string, now: Date): readonly LogChange[] {
  const oldest = `${device}/${monthOf(new Date(now.getFullYear(), now.getMonth() - DETAILED_MONTHS, 1))}`;
  return [...(progress.get('log') ?? [])].flatMap(([key, { value }]) => {
    if (!key.startsWith(`${device}/`) || key >= oldest) return [];
    const month = readMonth(value);
    const detailed = Object.values(month).some((days) => Object.keys(days).some((day) => day !== WHOLE_MONTH));
    return detailed ? [{ key, value: wholeMonth(month) }] : [];
  });
}

const wholeMonth = (month: Month): Month =>
  Object.fromEntries(
    Object.entries(month).map(([block, days]) => {
      const { seconds, rounds, tempo, days: count } = Object.entries(days).map(ofDay).reduce(together);
      return [block, { [WHOLE_MONTH]: [seconds, rounds, tempo, count] }];
    }),
  );

const ofDay = ([day, [seconds = 0, rounds = 0, tempo = 0, days = 1]]: readonly [string, readonly number[]]) => ({
  day,
  seconds,
  rounds,
  tempo,
  days,
});

const together = <Some extends Practised & { readonly days: number }>(a: Some, b: Some): Some => ({
  ...a,
  seconds: a.seconds + b.seconds,
  rounds: a.rounds + b.rounds,
  tempo: Math.max(a.tempo, b.tempo),
  days: a.days + b.days,
});

/** What all devices have practised, by date and block, oldest first. On the same day on two devices is one day. */
export function practiceIn(
  progress: Progress,
  nameNow: (block: string) => string = (block) => block,
): LoggedPractice[] {
  const found = new Map<string, LoggedPractice>();
  for (const [key, { value }] of progress.get('log') ?? []) {
    const month = key.slice(key.lastIndexOf('/') + 1);
    for (const [name, days] of Object.entries(readMonth(value)))
      for (const { day, ...amounts } of Object.entries(days).map(ofDay)) {
        const block = nameNow(name);
        const date = day === WHOLE_MONTH ? month : `${month}-${day.padStart(2, '0')}`;
        const at = `${date} ${block}`;
        const other = found.get(at);
        const one = { date, block, ...amounts };
        if (!other) found.set(at, one);
        else found.set(at, { ...together(other, one), days: Math.max(other.days, one.days) });
      }
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
}
