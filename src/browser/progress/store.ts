/**
 * A student's progress in this browser. Every change is made to what is kept at that moment, merged with what this page
 * knows, so that two tabs do not overwrite each other. What cannot be read is put aside under a name of its own, never
 * deleted.
 */
import { type FormerIds, underNewNames } from './former.ts';
import {
  type AboutBrowser,
  type EntryKind,
  merge,
  NOTHING,
  nextCounter,
  type Progress,
  progressOf,
  readRecord,
  writeRecord,
} from './record.ts';

/** A record that could not be read, kept as it was. */
export interface Aside {
  /** The name it is kept under. */
  readonly key: string;
  readonly text: string;
}

/** The student’s progress, kept in the browser and shared between its tabs. */
export interface Store {
  /** As this page knows it now. */
  progress(): Progress;
  /** Sets one thing, later than all that is known of it. `value` is JSON; a mark is true or false. */
  set(kind: EntryKind, key: string, value: unknown): void;
  /** The id under which this browser sets things. */
  device(): string;
  /** What is known of this browser: when it was asked or reminded of something. Not part of a file. */
  about(): AboutBrowser;
  note(about: AboutBrowser): void;
  /** Takes over what another record set later than this one. */
  add(other: Progress): void;
  /** Whether all that this page knows is kept in the browser. */
  isKept(): boolean;
  /** Records that could not be read. */
  asides(): readonly Aside[];
  removeAside(key: string): void;
  /** Why this browser does not keep what was marked, where it does not: progress then lasts as long as the page. */
  trouble(): StorageTrouble | undefined;
  /** Reads again what is kept: another tab may have written. */
  refresh(): void;
  /** Called after every change, on this page or another, until the function that is returned is called. */
  onChange(call: () => void): () => void;
}

/** The browser is set to keep nothing, or has no room left. */
export type StorageTrouble = 'blocked' | 'full';

/** Parts of the browser's storage, and its clock. */
export interface Surroundings {
  /** Undefined where the browser keeps nothing. */
  readonly storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'> | undefined;
  readonly now: () => number;
  /** An id that no other browser has. */
  readonly newDevice: () => string;
  /** Names that were changed: marks kept under them are moved when they are read. */
  readonly former?: FormerIds | undefined;
}

/** The progress stored under a name. A record that cannot be read is copied to another key first. */
export function openStore(name: string, { storage, now, newDevice, former }: Surroundings): Store {
  const key = `reedway-progress:${name}`;
  const asideKey = `${key}:aside:`;
  const calls = new Set<() => void>();
  let known = NOTHING;
  let about: AboutBrowser = {};
  let trouble: StorageTrouble | undefined = storage ? undefined : 'blocked';
  /** What was kept when it was looked at last: years of practice are not read again for each change. */
  let seen: { readonly text: string; readonly progress: Progress } | undefined;

  function kept(): string | null {
    try {
      const text = storage?.getItem(key) ?? null;
      // What was blocked before is open again.
      if (storage && trouble === 'blocked') trouble = undefined;
      return text;
    } catch {
      trouble = 'blocked';
      return null;
    }
  }

  /** Writes; false where it did not work. */
  function put(at: string, text: string): boolean {
    if (!storage) return false;
    try {
      storage.setItem(at, text);
      trouble = undefined;
      return true;
    } catch (error) {
      trouble = error instanceof Error && error.name === 'SecurityError' ? 'blocked' : 'full';
      return false;
    }
  }

  function putRecord(progress: Progress): void {
    const text = writeRecord(progress, { about });
    if (put(key, text)) seen = { text, progress };
  }

  /** What is kept, and whether it may be written over: what cannot be read is put aside first. */
  function readKept(): { readonly progress: Progress; readonly safe: boolean } {
    const text = kept();
    if (text === null) return { progress: NOTHING, safe: true };
    if (text === seen?.text) return { progress: seen.progress, safe: true };
    const { kind, progress, about: there } = readRecord(text);
    about = { ...about, ...there };
    if (kind === 'sound') {
      seen = { text, progress };
      return { progress, safe: true };
    }
    const safe = asides().some((aside) => aside.text === text) || put(freeAsideKey(), text);
    // Reported once: from now on the store has the readable part.
    if (safe) putRecord(progress);
    return { progress, safe };
  }

  /** By the time, and unlike every other: two records may be put aside within a millisecond. */
  function freeAsideKey(): string {
    const taken = new Set(asides().map((aside) => aside.key));
    const first = `${asideKey}${now()}`;
    let free = first;
    for (let number = 2; taken.has(free); number++) free = `${first}-${number}`;
    return free;
  }

  function change(added: Progress, noted: AboutBrowser = {}): void {
    const { progress, safe } = readKept();
    const before = known;
    about = { ...about, ...noted };
    const renamed = underNewNames(progress, former);
    known = merge(merge(known, renamed), underNewNames(added, former));
    const isNews = renamed !== progress || merge(progress, known) !== progress || Object.keys(noted).length > 0;
    if (safe && storage && isNews) putRecord(known);
    if (before !== known) for (const call of calls) call();
  }

  function asides(): Aside[] {
    const found: Aside[] = [];
    try {
      for (let index = 0; index < (storage?.length ?? 0); index++) {
        const at = storage?.key(index);
        const text = at?.startsWith(asideKey) ? storage?.getItem(at) : undefined;
        if (at && typeof text === 'string') found.push({ key: at, text });
      }
    } catch {
      trouble = 'blocked';
    }
    return found.sort((a, b) => (a.key < b.key ? -1 : 1));
  }

  function device(): string {
    const own = about['device'];
    if (typeof own === 'string' && own !== '') return own;
    const made = newDevice();
    about = { ...about, device: made };
    return made;
  }

  change(NOTHING);
  return {
    progress: () => known,
    set(kind, id, value) {
      // Another tab may have set it since this one last looked, and the counter is to be above that of every entry.
      change(NOTHING);
      const entry = { counter: nextCounter(known), device: device(), at: now(), value };
      change(progressOf(kind, id, entry));
    },
    device,
    about: () => about,
    note: (noted) => change(NOTHING, noted),
    add: (other) => change(other),
    isKept: () => {
      const { progress, safe } = readKept();
      return safe && merge(progress, known) === progress;
    },
    asides,
    removeAside(at) {
      if (at.startsWith(asideKey)) storage?.removeItem(at);
      for (const call of calls) call();
    },
    trouble: () => trouble,
    refresh: () => change(NOTHING),
    onChange: (call) => {
      calls.add(call);
      return () => calls.delete(call);
    },
  };
}
