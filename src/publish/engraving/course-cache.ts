/** What was engraved for a course, kept on disk for the next build of it by the same program. */
import { createHash } from 'node:crypto';
import { readdirSync, rmSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { cacheFolder } from '../cache-folder.ts';
import { ownCode } from './own-code.ts';
import { NO_RECORD_STORE, openRecordStore, type RecordStore } from './record-store.ts';

/** What nobody has used for so long is taken away. In milliseconds. */
const FORGOTTEN = 30 * 24 * 60 * 60 * 1000;

/** The record store of a course's engravings; one that stores nothing if no folder can be written. */
export function openCourseCache(dir: string): RecordStore {
  try {
    const all = join(cacheFolder(), 'engraved');
    const course = createHash('sha256').update(dir).digest('hex').slice(0, 16);
    const folder = join(all, `${course}-${ownCode()}`);
    const store = openRecordStore(folder);
    return {
      ...store,
      close() {
        store.close();
        tidy(all, folder, course);
      },
    };
  } catch {
    return NO_RECORD_STORE;
  }
}

/** Takes away what earlier states of the program left for this course, and courses nobody has built for long. */
function tidy(all: string, current: string, course: string): void {
  const now = new Date();
  try {
    utimesSync(current, now, now);
    for (const name of readdirSync(all)) {
      const folder = join(all, name);
      if (folder === current) continue;
      if (name.startsWith(`${course}-`) || now.getTime() - statSync(folder).mtimeMs > FORGOTTEN) {
        rmSync(folder, { recursive: true, force: true });
      }
    }
  } catch {
    // Another run may be at the same; whatever is left is tidied by the next.
  }
}
