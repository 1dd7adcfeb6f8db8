/**
 * Plays a block against the audio clock, scheduling a second ahead, so that a page that is busy for half a second
 * leaves no gap. What is scheduled can be called off, and a change of anything continues from the place in the music.
 */
import { countInTo } from '../schedule/count-in.ts';
import type { Cue } from '../schedule/cue.ts';
import { type Moment, momentAt, type Plan, roundPlan } from '../schedule/plan.ts';
import { remainingOf } from '../schedule/remaining.ts';
import { carryOver, type PlayPosition, positionAt, roundOf, START, secondsAt } from '../schedule/round.ts';
import { type PlaySettings, restartsRounds, sameRound } from '../schedule/settings.ts';
import type { Playback } from '../score/playback.ts';
import { itemAt } from '../values/checked.ts';

/** An audio output, on a clock in seconds. */
export interface AudioOutput {
  readonly now: () => number;
  readonly sound: (cue: Cue, at: number) => { readonly until: number; readonly stop: (at: number) => void };
  readonly shut: (at: number) => void;
  readonly open: (at: number) => void;
  /** Calls back every {@link TICK} until the function it returns is called. */
  readonly tick: (call: () => void) => () => void;
}

/** What is being played, and how. */
export interface Music {
  readonly playback: Playback;
  readonly settings: PlaySettings;
}

/** `counting`: the count-in sounds and the music has not begun. */
export type PlayState = 'stopped' | 'counting' | 'playing' | 'paused';

/** Whether something is heard, or about to be. */
export const isRunning = (state: PlayState): boolean => state === 'playing' || state === 'counting';

/** What is sounding at a moment, or will be when the count-in is over or a pause ends. */
export interface Showing {
  readonly moment: Moment;
  /** What begins next, perhaps in the round after. */
  readonly next: Moment | undefined;
  readonly round: number;
  readonly tempo: number;
  /** Whether the count-in for it continues. */
  readonly counting: boolean;
  /** When there is something else to show, on the clock; undefined while paused. */
  readonly until: number;
}

export interface Transport {
  readonly state: () => PlayState;
  /** Starts, or continues from where it was paused. */
  readonly play: () => void;
  readonly pause: () => void;
  readonly stop: () => void;
  /** Takes a change on: at once while it plays, with the place in the music kept. */
  readonly change: (music: Music) => void;
  /** The same where the next bar begins: until then what plays goes on. */
  readonly changeAtBar: (music: Music) => void;
  /** What sounds at a time of the clock; undefined while it is stopped and after its end. */
  readonly showing: (at: number) => Showing | undefined;
}

/** Seconds. */
const AHEAD = 1;
/** Milliseconds between two looks at what comes within reach: well within the second, with room for a busy page. */
export const TICK = 200;
/** The first sound starts this long after the click, so that there is time to schedule it. */
const SOON = 0.06;
/** What should have sounded longer ago than this is left out rather than played late. */
const TOO_LATE = 0.02;
/** From the gate's closing on, voices are stopped when nothing is heard of them any more. */
const SILENT = 0.02;

/** After the last bar its last notes ring out. */
const RING = 0.35;

/** A round laid on the clock. */
interface Laid {
  readonly plan: Plan;
  readonly at: number;
  /** When it is heard, on the clock: from its start or from the bar where it takes over, and until other music takes over. */
  readonly from: number;
  until: number;
  /** How many of its cues have been scheduled. */
  given: number;
}

/** A transport that plays `music` on an audio output; `changed` is called with every new state. */
export function createTransport(stage: AudioOutput, music: Music, changed: (state: PlayState) => void): Transport {
  let { playback, settings } = music;
  let state: PlayState = 'stopped';
  let position: PlayPosition = START;
  let startsAt = 0;
  let counted = false;
  let laid: Laid[] = [];
  let voices: { until: number; stop: (at: number) => void }[] = [];
  let cease: (() => void) | undefined;

  function become(next: PlayState): void {
    if (state === next) return;
    state = next;
    changed(next);
  }

  let plans = new Map<number, Plan>();
  function planFor(round: number): Plan {
    const known = plans.get(round);
    if (known) return known;
    // A long practice would pile up rounds that are over.
    if (plans.size > 8) plans = new Map();
    const plan = roundPlan(playback, settings, round);
    plans.set(round, plan);
    return plan;
  }

  function begin(withCount: boolean): void {
    const plan = planFor(position.round);
    if (plan.round.measures.length === 0) return;
    // A count leads to the start of a bar.
    if (withCount) position = { ...position, tick: 0 };
    counted = withCount;
    const into = secondsAt(plan.round, position);
    const now = stage.now() + SOON;
    const count = withCount ? countInTo(playback, plan.round, position.measure) : undefined;
    startsAt = now + (count?.seconds ?? 0);
    stage.open(now - SOON / 4);
    for (const cue of count?.cues ?? []) voices.push(stage.sound(cue, now + cue.at));
    laid = [layFrom(plan, into, startsAt)];
    become(count ? 'counting' : 'playing');
    schedule();
    cease ??= stage.tick(schedule);
  }

  /** Lays a round so that the place `into` it is heard at a time of the clock. */
  function layFrom(plan: Plan, into: number, from: number): Laid {
    const given = plan.cues.findIndex((cue) => cue.at >= into - 1e-9);
    const one: Laid = { plan, at: from - into, from, until: Infinity, given: given < 0 ? plan.cues.length : given };
    resume(one, into);
    return one;
  }

  /** What had begun before the place where playing starts sounds on from there. */
  function resume({ plan, at, given }: Laid, into: number): void {
    for (const cue of plan.cues.slice(0, given)) {
      const remaining = remainingOf(cue, into - cue.at);
      if (remaining) voices.push(stage.sound(remaining, at + into));
    }
  }

  function schedule(): void {
    const now = stage.now();
    voices = voices.filter((voice) => voice.until > now);
    laid = laid.filter((one, index) => index === laid.length - 1 || one.at + one.plan.round.seconds > now - 1);
    for (const one of laid.slice(0, -1)) give(one, now);
    for (let current = laid.at(-1); current; current = following(current, now)) give(current, now);
    if (state === 'counting' && now >= startsAt) become('playing');
    if (over(now - RING)) stop();
  }

  /** Whether the last bar to be played has ended. */
  function over(now: number): boolean {
    const last = laid.at(-1);
    return last !== undefined && !settings.loop && now >= last.at + last.plan.round.seconds;
  }

  function give(current: Laid, now: number): void {
    const { cues } = current.plan;
    for (; current.given < cues.length; current.given++) {
      const cue = itemAt(cues, current.given);
      const at = current.at + cue.at;
      if (at > now + AHEAD || at >= current.until - 1e-9) return;
      const left = at >= now - TOO_LATE ? cue : remainingOf(cue, now - at);
      if (!left) continue;
      const voice = stage.sound(left, Math.max(at, now));
      if (voice.until > current.until) voice.stop(current.until);
      voices.push(voice);
    }
  }

  /** The round after, once it comes within reach. */
  function following({ plan, at, given }: Laid, now: number): Laid | undefined {
    const end = at + plan.round.seconds;
    if (given < plan.cues.length || !settings.loop || end > now + AHEAD) return undefined;
    const next: Laid = { plan: planFor(plan.round.number + 1), at: end, from: end, until: Infinity, given: 0 };
    laid.push(next);
    return next;
  }

  function silence(): void {
    cease?.();
    cease = undefined;
    const now = stage.now();
    stage.shut(now);
    for (const voice of voices) voice.stop(now + SILENT);
    voices = [];
    laid = [];
  }

  const soundingAt = (at: number): Laid | undefined =>
    laid.findLast((one) => one.from <= at && at < one.at + one.plan.round.seconds);

  function place(): PlayPosition {
    const now = Math.max(stage.now(), startsAt);
    const current = soundingAt(now);
    if (!current) return position;
    const here = positionAt(current.plan.round, now - current.at);
    // What sounds may be music that is about to be replaced.
    return current.until < Infinity ? carryOver(here, current.plan.round, planFor(here.round).round) : here;
  }

  const running = (): boolean => isRunning(state);

  function pause(): void {
    if (!running()) return;
    if (over(stage.now())) {
      stop();
      return;
    }
    position = place();
    silence();
    become('paused');
  }

  function stop(): void {
    silence();
    position = START;
    become('stopped');
  }

  function change(next: Music): void {
    if (running() && over(stage.now())) stop();
    if (next.playback === playback && sameRound(settings, next.settings) && !isAhead()) {
      take(next);
      if (running()) schedule();
      return;
    }
    const was = state;
    if (running()) {
      position = place();
      silence();
    }
    if (was !== 'stopped') {
      const from = planFor(position.round).round;
      const round = restartsRounds(settings, next.settings) ? 0 : position.round;
      position = carryOver({ ...position, round }, from, roundOf(next.playback, next.settings, round));
    }
    take(next);
    if (was === 'counting' || was === 'playing') begin(was === 'counting' && settings.countIn);
  }

  function changeAtBar(next: Music): void {
    const now = Math.max(stage.now() + SOON, startsAt);
    const current = state === 'playing' ? soundingAt(now) : undefined;
    const bar = current && barAfter(current, now);
    if (!bar) {
      change(next);
      return;
    }
    // Rounds that were laid ahead, or music that was to take over at this bar, are not played.
    laid = laid.filter((one) => one.from <= now);
    current.until = bar.at;
    stage.shut(bar.at - SILENT);
    for (const voice of voices) if (voice.until > bar.at) voice.stop(bar.at);
    stage.open(bar.at);
    const round = restartsRounds(settings, next.settings) ? 0 : bar.position.round;
    const to = roundOf(next.playback, next.settings, round);
    const position = carryOver({ ...bar.position, round }, current.plan.round, to);
    take(next);
    const plan = planFor(position.round);
    if (plan.round.measures.length > 0) laid.push(layFrom(plan, secondsAt(plan.round, position), bar.at));
    schedule();
  }

  /** Where the next bar of a round begins; in a loop, the last is followed by the first. Undefined where nothing follows. */
  function barAfter({ plan: { round }, at }: Laid, now: number): { at: number; position: PlayPosition } | undefined {
    const measure = round.measures.findIndex((one) => at + one.at >= now);
    if (measure >= 0) {
      return { at: at + itemAt(round.measures, measure).at, position: { round: round.number, measure, tick: 0 } };
    }
    return settings.loop ? { at: at + round.seconds, position: { ...START, round: round.number + 1 } } : undefined;
  }

  /** Whether the round after the one that sounds has been laid on the clock already. */
  const isAhead = (): boolean => (laid.at(-1)?.at ?? 0) > Math.max(stage.now(), startsAt);

  function take(next: Music): void {
    ({ playback, settings } = next);
    plans = new Map();
  }

  function showing(at: number): Showing | undefined {
    if (state === 'stopped') return undefined;
    const waits = state === 'paused' || at < startsAt;
    const current = waits ? undefined : soundingAt(at);
    const plan = waits ? planFor(position.round) : current?.plan;
    if (!plan) return undefined;
    const moment = momentAt(plan.moments, current ? at - current.at : secondsAt(plan.round, position) + 1e-9);
    if (!moment) return undefined;
    const { number, tempo, seconds } = plan.round;
    const after = plan.moments[plan.moments.indexOf(moment) + 1];
    return {
      moment,
      next: after ?? (settings.loop ? planFor(number + 1).moments[0] : undefined),
      round: number,
      tempo,
      counting: counted && waits && state !== 'paused',
      until: current ? current.at + (after?.at ?? seconds) : startsAt,
    };
  }

  return {
    state: () => state,
    play: () => {
      if (!running()) begin(settings.countIn);
    },
    pause,
    stop,
    change,
    changeAtBar,
    showing,
  };
}
