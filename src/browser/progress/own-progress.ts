/** The progress of the course this page belongs to. */
import { readFormer } from './former.ts';
import { lastPlace, type Place } from './place.ts';
import { openStore, type Store } from './store.ts';

let store: Store | undefined;

/** The progress of this browser for this site. */
export function progressHere(): Store {
  if (store) return store;
  const { base = '/', former } = document.documentElement.dataset;
  const opened = openStore(base, { storage: storage(), now: Date.now, newDevice, former: readFormer(former) });
  addEventListener('storage', () => opened.refresh());
  // A page that comes back from the browser's own cache has missed what other tabs wrote.
  addEventListener('pageshow', () => opened.refresh());
  store = opened;
  return opened;
}

/** Where the student was last in this course. */
export const placeHere = (): Place | undefined =>
  lastPlace(progressHere().progress(), readFormer(document.documentElement.dataset['former']));

/** A browser that is set to store nothing throws as soon as its storage is accessed. */
function storage(): Storage | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}

/** Of a student's few browsers no two have the same. */
const newDevice = (): string => Math.random().toString(36).slice(2, 10);
