/** Blocks written at random whose settings change from bar to bar. */
import fc from 'fast-check';

/** A bar's own settings: its meter with its slot, and what else changes before it. */
export interface RandomChange {
  readonly meter: string;
  readonly slot: string;
  readonly slots: number;
  readonly lines: readonly string[];
}

const GRIDS = [
  { meter: '4/4', slot: '1/8', slots: 8 },
  { meter: '4/4', slot: '1/4', slots: 4 },
  { meter: '3/4', slot: '1/8', slots: 6 },
  { meter: '6/8', slot: '1/8', slots: 6 },
  { meter: '2/4', slot: '1/16', slots: 8 },
  { meter: '5/4', slot: '1/4', slots: 5 },
] as const;

const grid = fc.constantFrom(...GRIDS);
const other = fc.record({
  tempo: fc.constantFrom(undefined, undefined, '100', 'to 60', '72.5 to 144'),
  feel: fc.constantFrom(undefined, undefined, undefined, 'straight', 'shuffle', '70:30'),
  position: fc.constantFrom(undefined, undefined, undefined, 1, 2, 3, 12),
  key: fc.constantFrom(undefined, undefined, undefined, 'minor', 'major', 'mixolydian'),
});

/** The settings of some bars, of which the first are the block's own. */
export const randomChanges = (bars: number): fc.Arbitrary<readonly RandomChange[]> =>
  fc.array(fc.tuple(grid, fc.nat(3), other), { minLength: bars, maxLength: bars }).map((picked) => {
    let now = picked[0]?.[0] ?? GRIDS[0];
    return picked.map(([own, often, { tempo, feel, position, key }], index): RandomChange => {
      const lines: string[] = [];
      if (often === 0 && index > 0) {
        if (own.meter !== now.meter) lines.push(`meter: ${own.meter}`);
        if (own.slot !== now.slot) lines.push(`slot: ${own.slot}`);
        now = own;
      }
      if (tempo !== undefined && index > 0) lines.push(`tempo: ${tempo}`);
      if (feel !== undefined && index > 0) lines.push(`feel: ${feel}`);
      if (position !== undefined && index > 0) lines.push(`position: ${position}`);
      if (key !== undefined && index > 0) lines.push(`key: ${key}`);
      return { ...now, lines };
    });
  });
