/** Whether what is kept will stay: the browser is asked to keep it, and a student may be reminded to save it to a file. */
import { isDone, type Progress } from './record.ts';
import type { Store } from './store.ts';

const DAY = 86_400_000;
/** A browser may delete what a site stored after as little as a week without a visit (WebKit, “Tracking Prevention in WebKit”). */
const UNSAVED_DAYS = 7;
/** A student who saved a file, or wants none now, is not asked again for so long. */
const QUIET_DAYS = 60;
/** Lessons and blocks done that are worth a file. */
const WORTH_SAVING = 5;

/** When a file was saved, or the student did not want to: as {@link Store.note} keeps them. */
export interface Noted {
  readonly saved?: number;
  readonly declined?: number;
  readonly asked?: number;
}

/** Asks the browser to keep what this site stores, once: some show a question. */
export async function askToKeep(store: Store): Promise<void> {
  if (store.trouble() !== undefined || store.about()['asked'] !== undefined) return;
  const { storage }: Partial<Navigator> = navigator;
  if (!storage?.persist) return;
  store.note({ asked: Date.now() } satisfies Noted);
  await storage.persist().catch(() => false);
}

/** Whether the browser has promised to keep what the site stores; false where it does not say. */
export async function isKeptForGood(): Promise<boolean> {
  const { storage }: Partial<Navigator> = navigator;
  return (await storage?.persisted?.().catch(() => false)) ?? false;
}

/** Whether there is much to lose: several things done, the first of them a week ago, and no file for a long time. */
export function isWorthSaving(progress: Progress, about: Readonly<Record<string, unknown>>, now: number): boolean {
  const isRecent = (at: unknown): boolean => typeof at === 'number' && at <= now && now - at < QUIET_DAYS * DAY;
  if (isRecent(about['saved']) || isRecent(about['declined'])) return false;
  const done = (['lessons', 'blocks'] as const).flatMap((kind) =>
    [...(progress.get(kind) ?? [])].filter(([key]) => isDone(progress, kind, key)).map(([, { at }]) => at),
  );
  return done.length >= WORTH_SAVING && done.some((at) => now - at >= UNSAVED_DAYS * DAY);
}
