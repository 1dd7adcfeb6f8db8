/** Keeps the screen on while something plays, where the browser can. */
export type AwakeReason = 'playing' | 'drone';

const reasons = new Set<AwakeReason>();
let lock: WakeLockSentinel | undefined;

/** Keeps the screen on while there is any reason to. */
export function keepAwake(reason: AwakeReason, awake: boolean): void {
  if (awake) reasons.add(reason);
  else reasons.delete(reason);
  if (reasons.size > 0) ask();
  else {
    void lock?.release();
    lock = undefined;
  }
}

function ask(): void {
  if (lock || !('wakeLock' in navigator)) return;
  // A refusal (a battery saver, an old browser) only means that the screen goes off as usual.
  navigator.wakeLock.request('screen').then(take, () => {});
}

function take(sentinel: WakeLockSentinel): void {
  if (reasons.size === 0 || lock) {
    void sentinel.release();
    return;
  }
  lock = sentinel;
  sentinel.addEventListener('release', () => {
    if (lock === sentinel) lock = undefined;
  });
}

// A page that is hidden loses the lock, though a recording may play on.
document.addEventListener('visibilitychange', () => {
  if (reasons.size > 0 && !document.hidden) ask();
});
