import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createWaking, WAKE_UP_TIME } from '../../../src/browser/player/waking.ts';

/** A device whose state is set by hand, and what is done about it. */
function device(state: AudioContextState) {
  const context = Object.assign(new EventTarget(), { state });
  const done: string[] = [];
  const gone = new AbortController();
  let complaint = false;
  const waking = createWaking(
    context as unknown as AudioContext,
    {
      play: () => done.push('play'),
      interrupted: () => done.push('interrupted'),
      complain: (on) => {
        if (on !== complaint) done.push(on ? 'complain' : 'take back');
        complaint = on;
      },
    },
    gone.signal,
  );
  const become = (next: AudioContextState): void => {
    context.state = next;
    context.dispatchEvent(new Event('statechange'));
  };
  return { waking, become, done, gone };
}

describe('a device that is woken', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  test('plays at once where it runs', () => {
    const { waking, done } = device('running');
    waking.start();
    vi.advanceTimersByTime(10 * WAKE_UP_TIME);
    expect(done).toEqual(['play']);
    expect(waking.waits()).toBe(false);
  });

  test.each([10, 900, 1900, WAKE_UP_TIME - 1])('plays when it runs after %i ms, and nothing is said', (time) => {
    const { waking, become, done } = device('suspended');
    waking.start();
    vi.advanceTimersByTime(time);
    expect([done, waking.waits()]).toEqual([[], true]);
    become('running');
    vi.advanceTimersByTime(10 * WAKE_UP_TIME);
    expect([done, waking.waits()]).toEqual([['play'], false]);
  });

  test('says after a while that nothing is heard, takes it back and plays when something is', () => {
    const { waking, become, done } = device('suspended');
    waking.start();
    vi.advanceTimersByTime(WAKE_UP_TIME);
    expect([done, waking.waits()]).toEqual([['complain'], false]);
    become('running');
    expect(done).toEqual(['complain', 'take back', 'play']);
  });

  test('is asked once more by another press', () => {
    const { waking, become, done } = device('suspended');
    waking.start();
    vi.advanceTimersByTime(WAKE_UP_TIME);
    waking.start();
    vi.advanceTimersByTime(WAKE_UP_TIME - 1);
    become('running');
    expect(done).toEqual(['complain', 'take back', 'play']);
  });

  test('plays nothing that was called off', () => {
    const { waking, become, done } = device('suspended');
    waking.start();
    waking.cancel();
    become('running');
    vi.advanceTimersByTime(10 * WAKE_UP_TIME);
    expect(done).toEqual([]);
  });

  test('interrupts what plays when its state leaves running, and not while it has not woken', () => {
    const { waking, become, done } = device('suspended');
    waking.start();
    become('suspended');
    become('running');
    become('suspended');
    become('running');
    expect(done).toEqual(['play', 'interrupted']);
  });

  test('is forgotten with its player', () => {
    const { waking, become, done, gone } = device('suspended');
    waking.start();
    gone.abort();
    become('running');
    vi.advanceTimersByTime(10 * WAKE_UP_TIME);
    expect(done).toEqual([]);
  });
});
