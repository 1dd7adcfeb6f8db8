/**
 * Texts kept on disk between runs, by key. A folder of append-only files: each run reads those it finds and writes one of
 * its own, so runs at the same time do not meet. A record counts only if its digest is right: a file cut short by a crash
 * loses its last record and nothing else, and damage anywhere means making that one text again.
 */
import { createHash, randomUUID } from 'node:crypto';
import { closeSync, mkdirSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';

export interface Pack {
  get(key: string): string | undefined;
  put(key: string, text: string): void;
  /** Writes what was put, and where the files have grown beyond what this run used, leaves one with just that. */
  close(): void;
}

/**
 * A record: four letters, the length of its text in four bytes (big-endian), its key's digest, the digest of key and text,
 * and the text in UTF-8.
 */
const MAGIC = 0x52775031; // "RwP1"
const KEY_LENGTH = 16;
const HEAD = 8 + KEY_LENGTH + KEY_LENGTH;

interface Place {
  readonly file: Buffer;
  /** Of the record. */
  readonly from: number;
  readonly length: number;
}

const digest = (...parts: (string | Uint8Array)[]): Buffer => {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part);
  return hash.digest().subarray(0, KEY_LENGTH);
};

/** Nothing kept anywhere: for when no folder can be written. */
export const NO_PACK: Pack = { get: () => undefined, put: () => undefined, close: () => undefined };

/** Opens the pack of a folder. Never fails: what cannot be read or written is as if it were not there. */
export function openPack(folder: string, limit = 256 * 1024 * 1024): Pack {
  const { places, files, size } = readFiles(folder);
  const used = new Map<string, string>();
  let own: number | undefined;
  let writable = true;

  return {
    get(key) {
      const name = digest(key);
      const place = places.get(name.toString('latin1'));
      const text = place && textAt(place, name);
      if (text !== undefined) used.set(key, text);
      return text;
    },
    put(key, text) {
      used.set(key, text);
      if (!writable) return;
      try {
        own ??= newFile(folder);
        writeSync(own, record(key, text));
      } catch {
        // A full or read-only disk costs the next run its time, not this one its site.
        writable = false;
      }
    },
    close() {
      if (own !== undefined) closeSync(own);
      own = undefined;
      if (!writable) return;
      const grown = files.length >= 8 || size > limit || size > 2 * sizeOf(used) + 1024 * 1024;
      if (!grown) return;
      try {
        rewrite(folder, files, used, limit);
      } catch {
        writable = false;
      }
    },
  };
}

function newFile(folder: string): number {
  mkdirSync(folder, { recursive: true });
  return openSync(join(folder, `${randomUUID()}.pack`), 'wx');
}

const sizeOf = (texts: ReadonlyMap<string, string>): number =>
  [...texts.values()].reduce((sum, text) => sum + HEAD + text.length, 0);

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
      places.set(file.toString('latin1', at + 8, at + 8 + KEY_LENGTH), { file, from: at, length });
      at = end;
    }
  }
  return { places, files, size };
}

function listPacks(folder: string): string[] {
  try {
    return readdirSync(folder)
      .filter((name) => name.endsWith('.pack'))
      .sort();
  } catch {
    return [];
  }
}

function textAt({ file, from, length }: Place, name: Buffer): string | undefined {
  const text = file.subarray(from + HEAD, from + HEAD + length);
  const written = file.subarray(from + 8 + KEY_LENGTH, from + HEAD);
  return written.equals(digest(name, text)) ? text.toString('utf8') : undefined;
}

function record(key: string, text: string): Buffer {
  const body = Buffer.from(text, 'utf8');
  const head = Buffer.alloc(HEAD);
  const name = digest(key);
  head.writeUInt32BE(MAGIC, 0);
  head.writeUInt32BE(body.length, 4);
  head.set(name, 8);
  head.set(digest(name, body), 8 + KEY_LENGTH);
  return Buffer.concat([head, body]);
}

/** Puts what this run used in one file and takes the older ones away. */
function rewrite(folder: string, files: readonly string[], used: ReadonlyMap<string, string>, limit: number): void {
  const name = join(folder, randomUUID());
  const file = openSync(`${name}.part`, 'wx');
  try {
    let size = 0;
    for (const [key, text] of used) {
      const one = record(key, text);
      size += one.length;
      if (size > limit) break;
      writeSync(file, one);
    }
  } finally {
    closeSync(file);
  }
  renameSync(`${name}.part`, `${name}.pack`);
  for (const old of files) rmSync(join(folder, old), { force: true });
}
