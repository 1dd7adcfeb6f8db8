/** Records that were put aside because they could not be read, by a version of the site that did not know theirs. */
import { readRecord } from './record.ts';
import type { Store } from './store.ts';

/** Takes over those that this version can read, and removes them once they are kept. */
export function takeAsidesOver(store: Store): void {
  for (const { key, text } of store.asides()) {
    const { kind, progress } = readRecord(text);
    if (kind !== 'sound') continue;
    store.add(progress);
    if (store.isKept()) store.removeAside(key);
  }
}
