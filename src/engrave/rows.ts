/** Which tiles begin a row at each number of tiles to a row: before those the row head is shown. */

export interface RowTile {
  /** A labelled part begins here. */
  readonly part: boolean;
  readonly pickup: boolean;
  /** How many tiles with the rest of the same bar follow it. */
  readonly more: number;
}

/** Where one tile is to a row each begins its own, and the style sheet shows every row head. */
export const COLUMNS = [2, 4] as const;

/**
 * The indices of the tiles that begin a row. A pickup keeps a row to itself, so that a form's lines of four stay what
 * they are; a part begins a row; the tiles of one bar stay together in a row that can hold them.
 */
export function rowStarts(tiles: readonly RowTile[], columns: number): ReadonlySet<number> {
  const starts = new Set<number>();
  let used = columns;
  tiles.forEach((tile, index) => {
    const opens = index === 0 || tiles[index - 1]?.more === 0;
    const parted = opens && tile.more < columns && used + tile.more >= columns;
    if (used >= columns || tile.part || tiles[index - 1]?.pickup || parted) {
      starts.add(index);
      used = 0;
    }
    used++;
  });
  return starts;
}
