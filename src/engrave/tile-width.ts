/**
 * How wide the tiles of a block are. All tiles of a block have one width, and all blocks of a page one size of staff: so the width
 * decides how many tiles are in a row. It is chosen so that a row head and two tiles just fill one of a few widths.
 */

/** Widths of a row of two tiles in pixels of the drawing, by the class that names them: w1, w2 … `grid-sizes.css` has the same. */
export const ROW_WIDTHS = [320, 360, 418, 450, 490, 540, 600, 672] as const;

/** A row of one tile is never wider: it fits the narrowest phone, 320 pixels wide. */
const NARROWEST = 374;
/** The narrowest tile that is worth a row of two. */
const LEAST_TILE = 90;

/** What decides how wide a block's tiles are, in pixels of the drawing. */
export interface WidthNeeds {
  /** The row head, and the meter beside that of the first row. */
  readonly head: number;
  readonly meter: number;
  /** A pickup, which is in the first row too. */
  readonly pickup: number;
  /** The width of the widest bar. */
  readonly least: number;
}

export interface TileWidth {
  /** Index into {@link ROW_WIDTHS}. */
  readonly size: number;
  readonly width: number;
}

/** A row of four is as wide as two rows of two without the second head, the narrowest of which has this width. */
const SECOND_HEAD = 52;

/** The narrowest width with room for the widest bar, or the widest there is: bars that need more are broken. */
export function tileWidthFor({ head, meter, pickup, least }: WidthNeeds): TileWidth {
  const widths = ROW_WIDTHS.map((row) => widthIn(row, head, meter, pickup));
  const fits = widths.map((width) => {
    const single = pickup > 0 ? head : head + meter;
    return width >= Math.max(LEAST_TILE, pickup > 0 ? meter + pickup : 0) && single + width <= NARROWEST;
  });
  const wide = widths.findIndex((width, size) => fits[size] && width >= least);
  const size = wide >= 0 ? wide : Math.max(0, fits.lastIndexOf(true));
  return { size, width: Math.round((widths[size] ?? 0) * 100) / 100 };
}

/**
 * A tile in a row of two; `grid-sizes.css` has the same. A pickup is in the place of the first of them, but beside the head in a row
 * of four, which has to have room for it.
 */
const widthIn = (row: number, head: number, meter: number, pickup: number): number =>
  pickup > 0 ? (2 * row - SECOND_HEAD - head - meter - pickup) / 4 : (row - head - meter) / 2;

/** Whether a pickup and a tile are in one row even where that has a single tile. */
export const pickupFitsIn = ({ head, meter, pickup }: WidthNeeds, width: number): boolean =>
  head + meter + pickup + width <= NARROWEST;
