/**
 * Follows a course on the disk by looking at it again and again. Looking is slower to notice than the notices of the system,
 * and misses nothing: a folder that goes away and comes back, a disk on another machine, an editor that replaces files.
 */
import { statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { filesOnDisk } from '../../course/files.ts';
import { COURSE_FILE, COURSE_FOLDERS, GLOSSARY_FILE, TECHNIQUES_FILE } from '../../course/folder.ts';

/** Milliseconds from one look to the next. */
const PACE = 200;
/** Milliseconds without another change before a change counts: editors save in several steps. */
const SETTLED = 80;

/** Calls `changed` at once and after every change of the course in `dir`, until it is stopped. */
export async function followCourse(dir: string, changed: () => void, stopped: AbortSignal): Promise<void> {
  let seen = stateOf(dir);
  changed();
  for (;;) {
    if (!(await pause(PACE, stopped))) return;
    let now = stateOf(dir);
    if (now === seen) continue;
    for (let before = ''; before !== now; ) {
      if (!(await pause(SETTLED, stopped))) return;
      before = now;
      now = stateOf(dir);
    }
    seen = now;
    changed();
  }
}

/** Waits; false where it was stopped meanwhile. */
const pause = (milliseconds: number, signal: AbortSignal): Promise<boolean> =>
  sleep(milliseconds, true, { signal }).catch(() => false);

/** Two states of a course that differ in a file differ here: in its name, its size, when it was written, or which file it is. */
function stateOf(dir: string): string {
  const files = filesOnDisk(dir);
  const names = [
    COURSE_FILE,
    TECHNIQUES_FILE,
    GLOSSARY_FILE,
    ...COURSE_FOLDERS.flatMap((folder) => files.list(folder, () => {}, 'hidden')),
  ];
  return names.map((name) => `${name}\0${stampOf(join(dir, name))}`).join('\0');
}

function stampOf(path: string): string {
  try {
    const found = statSync(path, { throwIfNoEntry: false, bigint: true });
    return found ? `${found.mtimeNs} ${found.ctimeNs} ${found.size} ${found.ino}` : 'missing';
  } catch {
    return 'unreadable';
  }
}
