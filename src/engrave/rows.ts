/** Which tiles begin a row at each number of tiles to a row: before those the row head is shown. */

export interface RowTile {
  /** A labelled part begins here. */
  readonly part: boolean;
  /** The key signature changes here, which is shown in the head of a row. */
  readonly signature: boolean;
  /** How many tiles with the rest of the same bar follow it. */
  readonly more: number;
}

/** Where one tile is to a row each begins its own. */
export const COLUMNS = [2, 4] as const;

/**
 * The indices of the tiles that begin a row. The tiles of one bar stay together in a row that can hold them. A part begins a
 * row where less than half of the row before it stays empty for that. `taken` places of the first row have something else.
 */
export function rowStarts(tiles: readonly RowTile[], columns: number, taken = 0): ReadonlySet<number> {
  const starts = new Set<number>();
  let used = taken > 0 ? taken : columns;
  tiles.forEach((tile, index) => {
    const opens = index === 0 || tiles[index - 1]?.more === 0;
    const parted = opens && tile.more < columns && used + tile.more >= columns;
    if (used >= columns || tile.signature || (tile.part && used > columns / 2) || parted) {
      starts.add(index);
      used = 0;
    }
    used++;
  });
  return starts;
}

/**
 * A class that says at which numbers of tiles to a row a tile begins one: `b24` at any, `b2` and `b4` at one and that many, `b0`
 * only where each tile has a row to itself. `grid.css` shows and hides by it.
 */
export function rowClass(starts: readonly ReadonlySet<number>[], index: number): string {
  const found = COLUMNS.filter((_, at) => starts[at]?.has(index));
  return `b${found.join('') || '0'}`;
}
