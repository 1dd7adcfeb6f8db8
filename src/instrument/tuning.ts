/**
 * A tuning is the two reeds of every hole, in half steps above the harp's key note (hole 1 blow of all tunings here).
 * Everything else about a harp (bends, overbends, chords, what is missing) is computed from them.
 */
export interface Tuning {
  readonly id: string;
  readonly title: string;
  readonly blow: readonly number[];
  readonly draw: readonly number[];
  /** Half steps by which the pressed slide raises every reed; undefined on a harp without a slide. */
  readonly slide?: number;
  /**
   * Valves close the slot of the reed that does not sound, so that each reed works alone: no second reed sets the floor
   * of a bend, and nothing can be overbent.
   */
  readonly valves?: boolean;
  /** The key usually stamped on the cover where it is not the key note's own: as a position of it, and its mode. */
  readonly stamped?: { readonly position: number; readonly mode: 'major' | 'minor' };
}

const RICHTER_BLOW = [0, 4, 7, 12, 16, 19, 24, 28, 31, 36] as const;
const RICHTER_DRAW = [2, 7, 11, 14, 17, 21, 23, 26, 29, 33] as const;

/**
 * Sources: the Richter layout, both minor tunings and the solo layout as in the encyclopaedia articles "Richter-tuned
 * harmonica" and "Solo tuning"; the two raised reeds as in Eyers, "Shift Tuning", HarmonicaUK Magazine, Winter 2022.
 * That a slide harp is valved, and what the slide does at its top hole (some harps differ there): common practice, no source.
 */
export const TUNINGS = [
  {
    id: 'richter',
    title: 'Richter',
    //     1  2  3   4   5   6   7   8   9  10
    blow: RICHTER_BLOW,
    draw: RICHTER_DRAW,
  },
  {
    id: 'raised-third-blow',
    title: 'Raised third blow',
    blow: [0, 4, 9, 12, 16, 19, 24, 28, 31, 36],
    draw: RICHTER_DRAW,
  },
  {
    id: 'raised-fifth-draw',
    title: 'Raised fifth draw',
    blow: RICHTER_BLOW,
    draw: [2, 7, 11, 14, 18, 21, 23, 26, 29, 33],
  },
  {
    id: 'natural-minor',
    title: 'Natural minor',
    blow: [0, 3, 7, 12, 15, 19, 24, 27, 31, 36],
    draw: [2, 7, 10, 14, 17, 21, 22, 26, 29, 33],
    stamped: { position: 2, mode: 'minor' },
  },
  {
    id: 'harmonic-minor',
    title: 'Harmonic minor',
    blow: [0, 3, 7, 12, 15, 19, 24, 27, 31, 36],
    draw: [2, 7, 11, 14, 17, 20, 23, 26, 29, 32],
    stamped: { position: 1, mode: 'minor' },
  },
  {
    id: 'solo-chromatic',
    title: 'Twelve-hole chromatic, solo tuned',
    //     1  2  3   4   5   6   7   8   9  10  11  12
    blow: [0, 4, 7, 12, 12, 16, 19, 24, 24, 28, 31, 36],
    draw: [2, 5, 9, 11, 14, 17, 21, 23, 26, 29, 33, 35],
    slide: 1,
    valves: true,
  },
] as const satisfies readonly Tuning[];

/** The tuning of nearly every diatonic harp. */
export const RICHTER: Tuning = TUNINGS[0];

/** The name of a tuning within a sentence; undefined for the usual one, which goes without saying. */
export const unusualTuning = ({ id, title }: Pick<Tuning, 'id' | 'title'>): string | undefined =>
  id === RICHTER.id ? undefined : title.toLowerCase();
