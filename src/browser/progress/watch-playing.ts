/** Keeps what is played on this page: how each block was set last, how long it was practised, and that this was the last place. */
import { PLAYED_EVENT, type Played } from '../player/played.ts';
import { placeHere, progressHere } from './own-progress.ts';
import { PLACE } from './place.ts';
import { addPractice, type Practised } from './practice-log.ts';
import { entryOf } from './record.ts';
import { blockSettings } from './remembered.ts';

/** Milliseconds after the last change: a slider changes a setting many times. */
const SETTLED = 1000;
/** Seconds: less than this is a press by mistake. */
const LEAST_PRACTICE = 5;

/** One player while the page is open. */
interface Session {
  readonly lesson: string;
  readonly block: string;
  /** How it was set when it was opened, as JSON. */
  readonly opened: string;
  settings: string;
  timer?: ReturnType<typeof setTimeout>;
  /** When it began to run, in milliseconds of the page’s clock. */
  since?: number | undefined;
  round: number;
  practised: Practised;
}

const NONE: Practised = { seconds: 0, rounds: 0, tempo: 0 };
const sessions = new Map<HTMLElement, Session>();

/** Follows the players of the page from their first event on. */
export function watchPlaying(first: Event): void {
  follow(first);
  document.addEventListener(PLAYED_EVENT, follow);
  // Behind the players’ own, which stop what plays.
  addEventListener('pagehide', keepAll);
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) keepAll();
  });
}

function follow({ detail }: CustomEventInit<Played>): void {
  if (!detail) return;
  const settings = JSON.stringify(blockSettings(detail.settings));
  const session = sessions.get(detail.host) ?? begun(detail.host, settings);
  if (!session) return;
  const { running, round, tempo } = detail;
  if (session.since !== undefined && round > session.round) {
    const { practised } = session;
    session.practised = { ...practised, rounds: practised.rounds + round - session.round };
  }
  session.round = round;
  if (session.settings !== settings) {
    session.settings = settings;
    clearTimeout(session.timer);
    session.timer = setTimeout(() => keepSettings(session), SETTLED);
  }
  if (running) {
    session.since ??= performance.now();
    session.practised = { ...session.practised, tempo: Math.max(session.practised.tempo, tempo) };
  } else if (session.since !== undefined) {
    addTime(session);
    session.since = undefined;
    keep(session);
  }
}

/** A session of a player of a lesson’s block; the place is where it is. */
function begun(player: HTMLElement, settings: string): Session | undefined {
  const { lesson, block } = player.closest<HTMLElement>('[data-block]')?.dataset ?? {};
  if (lesson === undefined || block === undefined) return undefined;
  const session: Session = { lesson, block, opened: settings, settings, round: 0, practised: NONE };
  sessions.set(player, session);
  return session;
}

const keyOf = ({ lesson, block }: Session): string => `${lesson}/${block}`;

function addTime(session: Session): void {
  const now = performance.now();
  const seconds = session.practised.seconds + (now - (session.since ?? now)) / 1000;
  session.practised = { ...session.practised, seconds };
  session.since = now;
}

function keepAll(): void {
  for (const session of sessions.values()) {
    if (session.since !== undefined) addTime(session);
    keep(session);
  }
}

function keep(session: Session): void {
  keepSettings(session);
  keepPlace(session);
  if (session.practised.seconds < LEAST_PRACTICE) return;
  const store = progressHere();
  // Another tab of this browser may have added to the same month.
  store.refresh();
  const changes = addPractice(store.progress(), store.device(), new Date(), keyOf(session), session.practised);
  for (const { key, value } of changes) store.set('log', key, value);
  session.practised = NONE;
}

/**
 * Settings are kept once the student has changed them, so that a block that is only heard once as it is written does not replace what was
 * practised in it. Where they went on with what was kept, it is of today.
 */
function keepSettings(session: Session): void {
  clearTimeout(session.timer);
  const store = progressHere();
  const kept = entryOf(store.progress(), 'settings', keyOf(session));
  const same = JSON.stringify(kept?.value) === session.settings;
  const today = new Date().toDateString();
  if (same ? new Date(kept?.at ?? 0).toDateString() === today : session.settings === session.opened) return;
  store.set('settings', keyOf(session), JSON.parse(session.settings));
}

function keepPlace({ lesson, block }: Session): void {
  const last = placeHere();
  if (last?.lesson !== lesson || last.block !== block) progressHere().set('place', PLACE, { lesson, block });
}
