/** How far apart holes can be that sound together. */

/** Holes from the lowest to the highest that a mouth covers at once, both counted: common practice, no source. */
export const WIDEST_SPLIT = 5;
