/**
 * Texts kept on disk between runs, by key. A folder of append-only files: each run reads those it finds and writes one of
 * its own, so runs at the same time do not meet. A record counts only if its digest is right: a file cut short by a crash
 * loses its last record and nothing else, and damage anywhere means making that one text again.
 */
import { hash, randomUUID } from 'node:crypto';
import { closeSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';

/** Texts on disk by key, kept from one build to the next. */
export interface RecordStore {
  /** Whether there is a text for a key, as far as is known without reading it. */
  has(key: string): boolean;
  get(key: string): string | undefined;
  put(key: string, text: string): void;
  /** Ends the run. Files that have become many are gathered into one, and what no run has used for long goes when room runs out. */
  close(): void;
}

/**
 * A record: four letters, the length of its text in four bytes (big-endian), the digest of all that follows, its key's digest,
 * and the text in UTF-8.
 */
const MAGIC = 0x52775032; // "RwP2"
const KEY_LENGTH = 16;
const KEY_AT = 8 + KEY_LENGTH;
const HEAD = KEY_AT + KEY_LENGTH;

interface Place {
  readonly file: Buffer;
  /** Of the record. */
  readonly from: number;
  readonly length: number;
}

/** One character a byte, so that it serves as a map's key and in a file alike. */
const digest = (data: string | Uint8Array): string => hash('sha256', data, 'binary').slice(0, KEY_LENGTH);
const nameOf = (key: string): string => digest(key);

/** Nothing kept anywhere: for when no folder can be written. */
export const NO_RECORD_STORE: RecordStore = {
  has: () => false,
  get: () => undefined,
  put: () => undefined,
  close: () => undefined,
};

/** Opens the store of a folder. Never fails: what cannot be read or written is as if it were not there. */
export function openRecordStore(folder: string, limit = 192 * 1024 * 1024): RecordStore {
  const { places, files, size } = readFiles(folder);
  const used = new Set<string>();
  const added = new Map<string, string>();
  let own: number | undefined;
  let writable = true;

  return {
    has(key) {
      const name = nameOf(key);
      return added.has(name) || places.has(name);
    },
    get(key) {
      const name = nameOf(key);
      const place = places.get(name);
      const text = added.get(name) ?? (place && textAt(place));
      if (text !== undefined) used.add(name);
      return text;
    },
    put(key, text) {
      const name = nameOf(key);
      if (!writable || added.has(name)) return;
      added.set(name, text);
      try {
        own ??= newFile(folder);
        writeSync(own, record(name, text));
      } catch {
        // A full or read-only disk costs the next run its time, not this one its site.
        writable = false;
      }
    },
    close() {
      if (own !== undefined) closeSync(own);
      own = undefined;
      if (!writable || (files.length < MANY && size <= limit)) return;
      const ours = [...used].flatMap((name) => places.get(name) ?? []);
      const others = [...places].filter(([name]) => !used.has(name)).map(([, place]) => place);
      try {
        gather(folder, files, [...ours, ...others.reverse()], size > limit ? limit / 2 : limit);
      } catch {
        // What is there stays as it is, and the next run tries again.
      }
    },
  };
}

/** More files than this are gathered into one. */
const MANY = 8;

function newFile(folder: string): number {
  mkdirSync(folder, { recursive: true });
  return openSync(join(folder, `${randomUUID()}.records`), 'wx');
}

function readFiles(folder: string): { places: Map<string, Place>; files: string[]; size: number } {
  const places = new Map<string, Place>();
  const files: string[] = [];
  let size = 0;
  for (const name of listPacks(folder)) {
    let file: Buffer;
    try {
      file = readFileSync(join(folder, name));
    } catch {
      continue;
    }
    files.push(name);
    size += file.length;
    let at = 0;
    // A length that leads outside the file, or to something that is no record, ends what can be read of it.
    while (at + HEAD <= file.length && file.readUInt32BE(at) === MAGIC) {
      const length = file.readUInt32BE(at + 4);
      const end = at + HEAD + length;
      if (end > file.length) break;
      places.set(file.toString('latin1', at + KEY_AT, at + HEAD), { file, from: at, length });
      at = end;
    }
  }
  return { places, files, size };
}

function listPacks(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((name) => name.endsWith('.records'))
      .sort();
  } catch {
    return [];
  }
}

function textAt({ file, from, length }: Place): string | undefined {
  const end = from + HEAD + length;
  const written = file.toString('latin1', from + 8, from + KEY_AT);
  if (written !== digest(file.subarray(from + KEY_AT, end))) return undefined;
  return file.toString('utf8', from + HEAD, end);
}

function record(name: string, text: string): Buffer {
  const length = Buffer.byteLength(text);
  const whole = Buffer.allocUnsafe(HEAD + length);
  whole.writeUInt32BE(MAGIC, 0);
  whole.writeUInt32BE(length, 4);
  whole.write(name, KEY_AT, 'latin1');
  whole.write(text, HEAD);
  whole.write(digest(whole.subarray(KEY_AT)), 8, 'latin1');
  return whole;
}

/** Puts records in one file, the first ones first, as many as there is room for, and takes the files they came from away. */
function gather(folder: string, files: readonly string[], places: readonly Place[], room: number): void {
  const name = join(folder, randomUUID());
  const part = `${name}.part`;
  const file = openSync(part, 'wx');
  try {
    try {
      let size = 0;
      for (const { file: from, from: start, length } of places) {
        size += HEAD + length;
        if (size > room) break;
        writeSync(file, from, start, HEAD + length);
      }
    } finally {
      closeSync(file);
    }
    renameSync(part, `${name}.records`);
  } catch (error) {
    // On a full disk every run would leave another one.
    rmSync(part, { force: true });
    throw error;
  }
  for (const old of files) rmSync(join(folder, old), { force: true });
}
