/**
 * A tuning is the two reeds of every hole, in half steps above the harp's key note in hole 1.
 * Everything else about a harp (bends, overbends, what is missing) is computed from them.
 */
export interface Tuning {
  readonly id: string;
  readonly title: string;
  readonly blow: readonly number[];
  readonly draw: readonly number[];
}

/** Sources: the Richter layout as in the encyclopaedia article "Richter-tuned harmonica". */
export const TUNINGS = [
  {
    id: 'richter',
    title: 'Richter',
    //      1  2  3   4   5   6   7   8   9  10
    blow: [0, 4, 7, 12, 16, 19, 24, 28, 31, 36],
    draw: [2, 7, 11, 14, 17, 21, 23, 26, 29, 33],
  },
] as const satisfies readonly Tuning[];

export const RICHTER: Tuning = TUNINGS[0];
