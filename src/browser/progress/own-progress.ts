/** The progress of the course this page belongs to. */
import { openStore, type Store } from './store.ts';

let store: Store | undefined;

/** The progress of this browser for this site. */
export function progressHere(): Store {
  if (store) return store;
  const opened = openStore(document.documentElement.dataset['base'] ?? '/', { storage: storage(), now: Date.now });
  addEventListener('storage', () => opened.refresh());
  // A page that comes back from the browser's own cache has missed what other tabs wrote.
  addEventListener('pageshow', () => opened.refresh());
  store = opened;
  return opened;
}

/** A browser that is set to store nothing throws as soon as its storage is accessed. */
function storage(): Storage | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}
