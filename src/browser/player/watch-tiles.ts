/** Tiles move when the window does, and are drawn again for another harp. */

/** Calls when a block's tiles lie elsewhere or were drawn again. What changes in `own`, which is laid over them, does not count. */
export function watchTiles(block: Element, own: () => Element | null, moved: () => void): void {
  new ResizeObserver(moved).observe(block);
  new MutationObserver((changes) => {
    if (changes.some(({ target }) => !own()?.contains(target))) moved();
  }).observe(block, { childList: true, subtree: true });
}
