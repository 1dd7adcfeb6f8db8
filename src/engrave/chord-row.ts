/** The row of chord symbols over a tile, behind the number of its bar. */
import { equals, toNumber } from '../time/fraction.ts';
import { itemAt } from '../values/checked.ts';
import { CLASS } from './classes.ts';
import { CHORDS } from './layout.ts';
import { escapeText, n } from './markup.ts';
import {
  CHORD_END,
  CHORD_GAP,
  CHORD_LEAD,
  type ChordMark,
  chordsFrom,
  chordWidth,
  numberRoom,
  type PlacedSegment,
  type Segment,
} from './segment.ts';
import type { InkBox } from './staff/box.ts';

/** The row of a tile, and what its letters cover. */
export function chordRow(
  parts: PlacedSegment,
  width: number,
): { readonly markup: string; readonly ink: readonly InkBox[] } {
  const chords = placeChords(parts, width);
  return {
    markup: drawNumber(parts.segment) + chords.map(drawChord).join(''),
    ink: [...numberInk(parts.segment), ...chords.map(chordInk)],
  };
}

const drawNumber = ({ bar, opens }: Segment): string =>
  opens && bar.number > 0 ? `<text class="${CLASS.smallText}" x="1" y="${CHORDS.baseline}">${bar.number}</text>` : '';

/** What reaches below the line that letters are on, and how far. */
const TAILED = /[(),;gjpqy]/;
const TAIL = 3.5;
const lineInk = (text: string, left: number, right: number): InkBox => ({
  left,
  right,
  top: 0,
  bottom: CHORDS.baseline + (TAILED.test(text) ? TAIL : 0.5),
});
const chordInk = ({ x, chord }: PlacedChord): InkBox => lineInk(chord.name + chord.numeral, x, x + chordWidth(chord));
const numberInk = ({ bar, opens }: Segment): InkBox[] =>
  opens && bar.number > 0 ? [lineInk('', 1, numberRoom(bar.number))] : [];

interface PlacedChord {
  readonly chord: ChordMark;
  readonly x: number;
}

function placeChords(parts: PlacedSegment, width: number): PlacedChord[] {
  const { segment } = parts;
  const needed = segment.chords.reduce((sum, chord) => sum + chordWidth(chord) + CHORD_GAP, chordsFrom(segment));
  // Where not even a row of its own has room for all, numerals give way to names: over a rest that cannot be cut.
  const chords =
    needed - CHORD_GAP <= width - CHORD_END
      ? segment.chords
      : segment.chords.map((chord) => ({ ...chord, numeral: '' }));
  // From the right: each may start no later than leaves room for the next.
  const latest: number[] = [];
  let end = width - CHORD_END;
  for (const chord of chords.toReversed()) {
    end -= chordWidth(chord);
    latest.unshift(end);
    end -= CHORD_GAP;
  }
  let earliest = chordsFrom(segment);
  return chords.map((chord, index) => {
    const x = Math.max(earliest, Math.min(chordX(chord, parts, width), itemAt(latest, index)));
    earliest = x + chordWidth(chord) + CHORD_GAP;
    return { chord, x };
  });
}

function drawChord({ chord, x }: PlacedChord): string {
  const numeral = chord.numeral
    ? `<tspan class="${CLASS.chordNumeral}" dx="4">${escapeText(chord.numeral)}</tspan>`
    : '';
  return `<text class="${CLASS.chordName}" data-chord="${chord.index}" x="${n(x)}" y="${CHORDS.baseline}">${escapeText(chord.name)}${numeral}</text>`;
}

/** Over the note it begins with, or between two where it changes under a held one or a rest. */
function chordX({ onset, column }: ChordMark, { segment, xs }: PlacedSegment, width: number): number {
  const note = segment.columns[column]?.note;
  const x = note?.wholeBar ? 14 : xs[column];
  if (!note || x === undefined) return 6;
  if (equals(note.onset, onset)) return x - CHORD_LEAD;
  const next = xs[column + 1] ?? width;
  const share = (toNumber(onset) - toNumber(note.onset)) / toNumber(note.duration);
  return x + Math.max(0, share) * (next - x) - CHORD_LEAD;
}
