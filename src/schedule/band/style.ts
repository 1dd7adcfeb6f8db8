/**
 * How the band plays: patterns by feel, each a few variations that the choruses take in turn. The patterns are common
 * practice, no source.
 *
 * A pattern gives each kind of beat a cell, and a cell divides its beat evenly into as many parts as it has letters
 * (halves swing with the feel, thirds are triplets).
 */
import { toNumber } from '../../time/fraction.ts';
import { beatLength, beatsInBar, isCompound, type Meter } from '../../time/meter.ts';

/** The styles of the band. A block’s feel and tempo choose one. */
export type StyleName = 'straight' | 'shuffle' | 'slow' | 'fast-beat';

/** What a beat is to its bar: the first, the first of a later group, the second of a group, or any further one. */
export type BeatKind = 'one' | 'strong' | 'back' | 'weak';
type Cells = Readonly<Record<BeatKind, string>>;

/** Letters of drum cells: `.` nothing, `1` to `9` how loud. Of kick and snare, what is quiet and off the beat is an ornament. */
export interface DrumPattern {
  readonly kick: Cells;
  readonly snare: Cells;
  readonly stick?: Cells;
  readonly hat?: Cells;
  readonly ride?: Cells;
}

/**
 * Letters of bass cells: `.` the note before continues, `R` root, `3` `5` `6` `7` those tones of the chord, `8` the octave,
 * `a` a half step beside the root of the chord that comes. Beats are counted from where the chord comes in; the last one
 * before another chord plays `approach` instead.
 */
export interface BassPattern {
  readonly cells: readonly string[];
  readonly approach: string;
}

/** Letters of chord cells: `.` nothing new, `s` struck short, `p` held until the next letter or chord, `-` silence. */
export type ChordPattern = Cells;

/** What bass, drums and chords play in one bar of a style. */
export interface Style {
  readonly drums: readonly DrumPattern[];
  /** What the snare plays on the last beat of a chorus, and of the other fourth bars. */
  readonly fills: readonly string[];
  readonly turns: readonly string[];
  readonly bass: readonly BassPattern[];
  readonly chords: readonly ChordPattern[];
}

const cells = (one: string, strong: string, back: string, weak: string): Cells => ({ one, strong, back, weak });

/** The patterns of every style. Common practice, no source. */
export const STYLES: Readonly<Record<StyleName, Style>> = {
  straight: {
    drums: [
      {
        kick: cells('9.', '8.', '.5', '.4'),
        snare: cells('..', '.2', '8.', '4.'),
        hat: cells('64', '64', '64', '64'),
      },
      {
        kick: cells('9.', '.8', '.4', '..'),
        snare: cells('..', '.2', '82', '4.'),
        ride: cells('6.', '6.', '64', '6.'),
      },
      {
        kick: cells('9.', '8.', '.6', '.4'),
        stick: cells('..', '..', '8.', '4.'),
        snare: cells('.2', '.2', '..', '..'),
        hat: cells('63', '63', '63', '63'),
      },
      {
        kick: cells('9.', '88', '.5', '.4'),
        snare: cells('.2', '..', '83', '4.'),
        ride: cells('63', '63', '63', '63'),
      },
    ],
    fills: ['7678', '8.67', '78', '.788'],
    turns: ['85', '8.45', '8446'],
    bass: [
      { cells: ['RR', '55', '66', '55'], approach: '5a' },
      { cells: ['R.', '5.', '8.', '5.'], approach: '5a' },
      { cells: ['R.', '3.', '5.', '6.'], approach: 'a.' },
      { cells: ['RR', 'R5', '88', '5.'], approach: '5a' },
    ],
    chords: [
      cells('..', '..', 's.', 's.'),
      cells('p.', '..', '..', '..'),
      cells('.s', '.s', '.s', '.s'),
      cells('s.', '.s', '..', '..'),
    ],
  },
  shuffle: {
    drums: [
      { kick: cells('9.', '8.', '44', '4.'), snare: cells('..', '.2', '8.', '4.'), hat: cells('65', '65', '75', '65') },
      {
        kick: cells('9.', '8.', '.4', '.4'),
        snare: cells('..', '.2', '82', '4.'),
        ride: cells('6.', '6.', '75', '75'),
      },
      {
        kick: cells('9.', '8.', '.5', '..'),
        stick: cells('..', '..', '8.', '4.'),
        snare: cells('.2', '.2', '..', '..'),
        hat: cells('65', '65', '65', '65'),
      },
      {
        kick: cells('9.', '86', '44', '4.'),
        snare: cells('.2', '.2', '8.', '4.'),
        ride: cells('65', '65', '65', '65'),
      },
    ],
    fills: ['788', '.78', '687', '7.8'],
    turns: ['85', '845', '8.5'],
    bass: [
      { cells: ['R', '3', '5', '6', '8', '6', '5', '3'], approach: 'a' },
      { cells: ['R.', '3.', '5.', '6.'], approach: 'a.' },
      { cells: ['RR', '55', '66', '55'], approach: '5a' },
      { cells: ['R', '8', '7', '5', '6', '5', '3', '5'], approach: 'a' },
    ],
    chords: [
      cells('.s', '.s', '..', '..'),
      cells('p.', '..', '..', '..'),
      cells('..', '..', 's.', 's.'),
      cells('s.', '..', '.s', '.s'),
    ],
  },
  slow: {
    drums: [
      {
        kick: cells('9..', '8..', '..5', '..4'),
        snare: cells('...', '..2', '8..', '4..'),
        hat: cells('645', '645', '645', '645'),
      },
      {
        kick: cells('9..', '8..', '..4', '...'),
        stick: cells('...', '...', '8..', '4..'),
        snare: cells('..2', '.22', '...', '...'),
        ride: cells('6.4', '6.4', '6.4', '6.4'),
      },
      {
        kick: cells('9.4', '8..', '..5', '...'),
        snare: cells('...', '.2.', '8.2', '4..'),
        hat: cells('634', '634', '634', '634'),
      },
      {
        kick: cells('9..', '8.5', '..4', '...'),
        snare: cells('...', '..2', '8..', '4..'),
        ride: cells('634', '634', '634', '634'),
      },
    ],
    fills: ['788', '678', '.88', '7.8'],
    turns: ['8.5', '845', '8.4'],
    bass: [
      { cells: ['R..', '3..', '5..', '6..'], approach: '5.a' },
      { cells: ['R.R', '5..', '8..', '5..'], approach: '5.a' },
      { cells: ['R..', '5..', '6..', '5..'], approach: 'a..' },
      { cells: ['R.5', '8..', '7..', '5..'], approach: '5.a' },
    ],
    chords: [
      cells('p..', '...', '...', '...'),
      cells('...', '...', 's..', 's..'),
      cells('sss', 'sss', 'sss', 'sss'),
      cells('..s', '..s', 's..', 's..'),
    ],
  },
  // Meters such as 5/8 and 7/8, whose beats are too short to be divided.
  'fast-beat': {
    drums: [
      { kick: cells('9', '7', '.', '.'), snare: cells('.', '.', '6', '.'), hat: cells('6', '6', '4', '4') },
      {
        kick: cells('9', '7', '.', '.'),
        stick: cells('.', '.', '6', '.'),
        snare: cells('.', '.', '.', '.'),
        ride: cells('6', '6', '4', '4'),
      },
      { kick: cells('9', '.', '.', '5'), snare: cells('.', '6', '.', '.'), hat: cells('6', '6', '4', '4') },
      { kick: cells('9', '7', '.', '.'), snare: cells('.', '.', '6', '3'), ride: cells('6', '5', '4', '5') },
    ],
    fills: ['7', '88'],
    turns: ['64', '46'],
    bass: [
      { cells: ['R', '.', '5', '.'], approach: 'a' },
      { cells: ['R', '.', '3', '5'], approach: 'a' },
      { cells: ['R', '.', '8', '5'], approach: 'a' },
    ],
    chords: [cells('p', '.', '.', '.'), cells('.', '.', 's', 's'), cells('s', '.', '.', '.')],
  },
};

/** A little over even: below it halves are heard as straight. */
const SWING_THRESHOLD = 0.54;

/** The style of the band for a meter and a swing. */
export function styleOf(meter: Meter, swing: number): StyleName {
  if (isCompound(meter)) return 'slow';
  if (toNumber(beatLength(meter)) < 1 / 4) return 'fast-beat';
  return swing > SWING_THRESHOLD ? 'shuffle' : 'straight';
}

/** A bar's beats as they are grouped: twos, with a three at the end where they do not come out even (3/4 is one three). */
export function beatKinds(meter: Meter): readonly BeatKind[] {
  const beats = Math.max(1, Math.round(beatsInBar(meter)));
  const threes = beats === 6 ? 2 : beats % 2 === 1 && beats > 1 ? 1 : 0;
  const twos = (beats - 3 * threes) / 2;
  const groups: BeatKind[][] = [];
  for (let i = 0; i < Math.floor(twos); i++) groups.push(['strong', 'back']);
  for (let i = 0; i < threes; i++) groups.push(['strong', 'weak', 'weak']);
  const kinds: readonly BeatKind[] = groups.length > 0 ? groups.flat() : ['one'];
  return ['one', ...kinds.slice(1)];
}
