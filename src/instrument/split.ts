/** How far apart holes can be that sound together. */

/** Holes from the lowest to the highest that a mouth covers at once, both counted: common practice, no source. */
export const WIDEST_SPLIT = 5;

/** Whether holes, one or more, are next to each other, as lips play them; holes apart are what the tongue is for. */
export function areSideBySide(notes: readonly { readonly hole: number }[]): boolean {
  const holes = notes.map(({ hole }) => hole);
  return Math.max(...holes) - Math.min(...holes) < holes.length;
}
