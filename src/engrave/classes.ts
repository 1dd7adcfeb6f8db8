/**
 * The classes of a drawing's elements. Those with one letter are on hundreds of elements of a page, so they are
 * short; this table is their legend. `block.css` has the same letters.
 */
export const CLASS = {
  // Lines.
  /** A line of constant width: stems, brackets, bends, overbend rings. */
  stroke: 's',
  /** A tie or a slur. */
  curve: 'v',
  staffLines: 't',
  laneLine: 'z',
  barLine: 'b',
  thickBarLine: 'B',
  /** A note that is held on in the lanes. */
  heldLine: 'd',
  glideLine: 'g',
  /** Over a phrase that the block repeats. */
  phraseBracket: 'H',
  /** Joins the holes of one breath. */
  breathLine: 'q',
  /** The band of the embouchure, and its hatching for the tongue. */
  mouthBand: 'o',
  tongueHatching: 'h',

  // Groups.
  /** What crosses to the next tile: shown where that is in the same row; and its ends, shown where it is not. */
  joined: 'x',
  cut: 'X',
  /** Lengths, beats and bar lines of the lanes, shown where there is no staff. */
  lanesOnly: 'L',
  event: 'e',
  /** A grace note, on the staff and in the lanes. */
  grace: 'G',
  /** What joins several notes: beams, slurs, ties. */
  joins: 'j',

  // Texts.
  chordName: 'c',
  chordNumeral: 'u',
  partName: 'p',
  /** What changes before a bar. */
  change: 'C',
  /** Words to the player. */
  direction: 'I',
  /** `D.C. al Fine`, `To Coda`. */
  jumpWords: 'J',
  /** Bar numbers, endings, and words of the embouchure. */
  smallText: 'i',
  /** The name of a phrase, at its bracket. */
  phraseName: 'N',
  /** The word of a mark over the lanes. */
  markWord: 'k',
  /** A letter of loudness before it. */
  dynamic: 'D',
  lyric: 'y',
  verseNumber: 'V',
  /** A syllable that a note is articulated with. */
  syllable: 'Y',
  holeNumber: 'n',
  /** A hole number of two characters, which is set smaller. */
  wideNumber: 'w',
  /** One of a quarter step in a triangle, which has the least room. */
  narrowNumber: 'T',
  roleLabel: 'l',
  /** A role label beside its number, where several notes sound at once. */
  roleLabelBeside: 'a',

  // Role shapes.
  roleShape: 'm',
  /** A flat role, which is hollow. */
  flatRole: 'f',
} as const;

/** The parts of a tile, from the top down. */
export const PART_KINDS = [
  'part',
  'jumps',
  'ending',
  'phrases',
  'chords',
  'staff',
  'signs',
  'words',
  'lanes',
  'band',
  'syllables',
  'lyrics',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

/** Their classes. */
export const PART: Readonly<Record<PartKind, string>> = {
  part: 'pp',
  jumps: 'pj',
  ending: 'pe',
  phrases: 'ph',
  chords: 'pc',
  staff: 'ps',
  signs: 'pg',
  words: 'pw',
  lanes: 'pl',
  band: 'pb',
  syllables: 'pa',
  lyrics: 'py',
};
