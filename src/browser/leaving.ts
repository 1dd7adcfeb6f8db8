/** What is stopped when a reader goes to another page, or looks at one in another tab. */

/** Calls when the page is left or hidden. */
export function whenLeft(call: () => void): void {
  addEventListener('pagehide', call);
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) call();
  });
}
