/** Keeps the screen on while something plays, where the browser can. */
let lock: WakeLockSentinel | undefined;
let wanted = false;

export function keepAwake(awake: boolean): void {
  wanted = awake;
  if (awake) ask();
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
  if (!wanted || lock) {
    void sentinel.release();
    return;
  }
  lock = sentinel;
  sentinel.addEventListener('release', () => {
    if (lock === sentinel) lock = undefined;
  });
}

// Whoever looks at another page loses the lock, though a recording may play on.
document.addEventListener('visibilitychange', () => {
  if (wanted && !document.hidden) ask();
});
