import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Works in a new folder, which is gone afterwards. */
export async function inFolder<T>(work: (folder: string) => Promise<T>, under = tmpdir()): Promise<T> {
  const folder = await mkdtemp(join(under, 'bench-'));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
