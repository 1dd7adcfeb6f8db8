/** How wide the tiles of a block are. */

/** In pixels of the drawing, by the class that names them: w1, w2 … `block.css` has the same. */
export const TILE_WIDTHS = [156, 212, 268, 332] as const;

/** The index of the narrowest width with room for a bar of the `least` width; the widest for bars that need more. */
export function tileSizeFor(least: number): number {
  const size = TILE_WIDTHS.findIndex((width) => least <= width);
  return size < 0 ? TILE_WIDTHS.length - 1 : size;
}
