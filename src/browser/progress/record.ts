/**
 * What is kept of a student, in the browser and in files: entries, each of which says what was set last for one thing. Two records
 * are merged entry by entry, and the one set last counts. Which that is depends on counters and not on clocks: whatever is set gets a
 * counter above all that its device has seen. A record is read as untrusted: another version, another program or a failing disk may
 * have written it.
 */

/** What was set for one thing, by which device and when. */
export interface Entry {
  /** Above those of all entries that the device knew. 0 in what is read from a record of version 1, which has none. */
  readonly counter: number;
  /** The id of the browser that set it; empty in what is read from a record of version 1. */
  readonly device: string;
  /** Milliseconds since 1970 by that device’s clock, or 0 where it is not known. For people: only version 1 is ordered by it. */
  readonly at: number;
  /** JSON. False where a mark was taken back: that is kept too, so that an older record cannot bring it back. */
  readonly value: unknown;
}

/** What can be marked as done. */
export type ProgressKind = 'lessons' | 'blocks';
/**
 * Kinds of entries. `lessons` by id and `blocks` as `lesson/block`: whether they are done. `settings` by block and `place` (remembered.ts).
 * `log` (practice-log.ts). Kinds that this version does not know are kept as they are.
 */
export type EntryKind = ProgressKind | 'settings' | 'place' | 'log';
/** All that can be marked as done, in the order of the record. */
export const PROGRESS_KINDS = ['lessons', 'blocks'] as const;

/** Entries by kind, and then by key. */
export type Progress = ReadonlyMap<string, ReadonlyMap<string, Entry>>;

/** The version of the record’s format. A record of a later one is not touched. */
export const VERSION = 2;
/** The progress of a student who has marked nothing. */
export const NOTHING: Progress = new Map();

/** What a record says of the browser it is kept in: its device, and when it was asked or reminded of something. Never part of a file. */
export type AboutBrowser = Readonly<Record<string, unknown>>;

/** What reading a stored record gives. */
export interface Reading {
  /**
   * `damaged`: not a valid record, in part or as a whole; `progress` is its valid part. `version`: written by another version of the
   * site.
   */
  readonly kind: 'sound' | 'damaged' | 'version';
  readonly progress: Progress;
  readonly about: AboutBrowser;
  readonly version: number;
}

/** Reads a record. Nothing is thrown, whatever the text. */
export function readRecord(text: string): Reading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    // Read below as what it is: nothing.
  }
  const record = isObject(value) ? value : {};
  const { version, entries, browser } = record;
  const known = isCount(version);
  const reading: Reading = {
    kind: known ? 'version' : 'damaged',
    progress: NOTHING,
    about: isObject(browser) ? browser : {},
    version: known ? version : 0,
  };
  if (version !== 1 && version !== VERSION) return reading;
  const { progress, whole } =
    version === 1
      ? readKinds(
          PROGRESS_KINDS.map((kind) => [kind, record[kind]]),
          readMark,
        )
      : readEntries(entries);
  return { ...reading, kind: whole ? 'sound' : 'damaged', progress };
}

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number =>
  typeof value === 'number' && Number.isSafeInteger(value) && value >= 0;

/** The last moment that a clock can show (ECMAScript, “Time Values and Time Range”). */
const LAST_MOMENT = 8.64e15;
/** More is set in no life. No later entry could replace one with a counter near the end of what numbers can be. */
const LAST_COUNTER = 2 ** 52;

const readAt = (at: number): number => (at >= LAST_MOMENT ? 0 : at);

/** A mark of version 1: whatever version 2 sets is later. */
const readMark = (mark: unknown): Entry | undefined =>
  isObject(mark) && typeof mark['done'] === 'boolean' && isCount(mark['at'])
    ? { counter: 0, device: '', at: readAt(mark['at']), value: mark['done'] }
    : undefined;

function readEntry(entry: unknown, kind: string): Entry | undefined {
  if (!Array.isArray(entry) || entry.length !== 4) return undefined;
  const [counter, device, at, value]: readonly unknown[] = entry;
  if (!isCount(counter) || typeof device !== 'string' || !isCount(at)) return undefined;
  if (PROGRESS_KINDS.some((one) => one === kind) && typeof value !== 'boolean') return undefined;
  return { counter: counter > LAST_COUNTER ? 0 : counter, device, at: readAt(at), value };
}

const readEntries = (entries: unknown) =>
  isObject(entries) ? readKinds(Object.entries(entries), readEntry) : { progress: NOTHING, whole: false };

/** The entries that are valid, and whether all of them were. */
function readKinds(
  kinds: readonly (readonly [string, unknown])[],
  read: (value: unknown, kind: string) => Entry | undefined,
): { readonly progress: Progress; readonly whole: boolean } {
  const progress = new Map<string, ReadonlyMap<string, Entry>>();
  let whole = true;
  for (const [kind, all] of kinds) {
    const entries = new Map<string, Entry>();
    if (!isObject(all)) whole = false;
    else
      for (const key of Object.keys(all)) {
        const entry = read(all[key], kind);
        if (entry) entries.set(key, entry);
        else whole = false;
      }
    if (entries.size > 0) progress.set(kind, entries);
  }
  return { progress, whole };
}

/**
 * The text that {@link readRecord} reads, the same for the same entries. `course` is for a person who opens the file; nothing depends on
 * it.
 */
export function writeRecord(
  progress: Progress,
  { course, about }: { course?: string; about?: AboutBrowser } = {},
): string {
  const entries = sorted(progress, (kind) =>
    sorted(kind, ({ counter, device, at, value }) => [counter, device, at, value]),
  );
  return JSON.stringify({ version: VERSION, course, browser: about, entries });
}

const sorted = <From, To>(map: ReadonlyMap<string, From>, write: (from: From) => To): Record<string, To> =>
  Object.fromEntries([...map].sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, from]) => [key, write(from)]));

/**
 * Of each thing the entry set last; `a` itself where `b` has nothing later. Two records give the same in either order, in whatever groups,
 * and however often.
 */
export function merge(a: Progress, b: Progress): Progress {
  const merged = new Map(a);
  let changed = false;
  for (const [kind, entries] of b) {
    const before = a.get(kind);
    const later = [...entries].filter(([key, entry]) => isLater(entry, before?.get(key)));
    if (later.length === 0) continue;
    changed = true;
    merged.set(kind, new Map([...(before ?? []), ...later]));
  }
  return changed ? merged : a;
}

/** Whether an entry was set after another: an order of all entries, so that every device decides the same. */
export function isLater(entry: Entry, other: Entry | undefined): boolean {
  if (!other) return true;
  // Most entries of a merge are the same objects, and values may be long.
  if (entry === other) return false;
  if (entry.counter !== other.counter) return entry.counter > other.counter;
  if (entry.device !== other.device) return entry.device > other.device;
  if (entry.at !== other.at) return entry.at > other.at;
  // Set at one moment, done counts.
  return JSON.stringify(entry.value) > JSON.stringify(other.value);
}

/** A record of one entry. */
export const progressOf = (kind: string, key: string, entry: Entry): Progress =>
  new Map([[kind, new Map([[key, entry]])]]);

/** What was set last for a thing; undefined where nothing was. */
export const entryOf = (progress: Progress, kind: EntryKind, key: string): Entry | undefined =>
  progress.get(kind)?.get(key);

/** Whether a lesson or a block is marked as done. */
export const isDone = (progress: Progress, kind: ProgressKind, key: string): boolean =>
  entryOf(progress, kind, key)?.value === true;

/** A counter above those of all entries of a record. */
export function nextCounter(progress: Progress): number {
  let highest = 0;
  for (const entries of progress.values())
    for (const { counter } of entries.values()) highest = Math.max(highest, counter);
  return highest + 1;
}
