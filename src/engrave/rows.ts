/** Which tiles begin a row at each number of tiles to a row: before those the lead is shown. */

export interface RowTile {
  /** A labelled part begins here. */
  readonly part: boolean;
  readonly pickup: boolean;
  /** The first half of a bar cut in two; the second half follows it. */
  readonly half: boolean;
}

/** Where one tile stands to a row each begins its own, and the style sheet shows every lead. */
export const COLUMNS = [2, 4] as const;

/**
 * The indices of the tiles that begin a row. A pickup keeps a row to itself, so that a form's lines of four stay what
 * they are; a part begins a row; the halves of a bar stay together where two stand in a row.
 */
export function rowStarts(tiles: readonly RowTile[], columns: number): ReadonlySet<number> {
  const starts = new Set<number>();
  let used = columns;
  tiles.forEach((tile, index) => {
    const parted = tile.half && used === columns - 1;
    if (used >= columns || tile.part || tiles[index - 1]?.pickup || parted) {
      starts.add(index);
      used = 0;
    }
    used++;
  });
  return starts;
}
