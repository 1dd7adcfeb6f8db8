/** Lines of chord symbols above the music, as song sheets have them. */
import type { Fix, TextEdit, TextSpan } from '../../diagnostics/diagnostic.ts';
import { applyEdits } from '../../diagnostics/edit.ts';
import { unquotedChord } from './spelling-words.ts';

interface Word {
  readonly text: string;
  /** Offset within its line. */
  readonly at: number;
}

const wordsOf = (line: string): Word[] =>
  [...line.matchAll(/[^\s|]+|[|:\]]+/g)].map(({ 0: text, index }) => ({ text, at: index }));

const isBarLine = ({ text }: Word): boolean => /^[|:\]]+$/.test(text);

/** The chord symbol of a word of such a line, with or without quotation marks. */
const chordOf = ({ text }: Word): string | undefined => unquotedChord(/^"(.+)"$/.exec(text)?.[1] ?? text);

/** Whether a line has chord symbols and bar lines alone, and some of the symbols are not in quotation marks. */
export function isChordLine(line: string): boolean {
  const words = wordsOf(line);
  return (
    words.some((word) => !/^"/.test(word.text) && chordOf(word) !== undefined) &&
    words.every((word) => isBarLine(word) || chordOf(word) !== undefined)
  );
}

/** Chord symbols brought into the music below them. */
export interface ChordsBelow {
  readonly fix: Fix;
  /** The line of music with its symbols. */
  readonly line: string;
}

/** The chords of a line within the line of music below it; undefined where their places cannot be seen. Lines are spans of the text. */
export function chordsBelow(text: string, above: TextSpan, below: TextSpan): ChordsBelow | undefined {
  const [chordLine, music] = [text.slice(above.from, above.to), text.slice(below.from, below.to)];
  if (/["<{]/.test(music)) return undefined;
  const chords = wordsOf(chordLine);
  const places = byBars(chords, wordsOf(music)) ?? byColumns(chords, wordsOf(music));
  if (!places) return undefined;
  const inserted = places.at.map(([at, chord]): TextEdit => ({ span: { from: at, to: at }, text: `"${chord}" ` }));
  const line = applyEdits(music, inserted).trim();
  const start = above.from + chordLine.length - chordLine.trimStart().length;
  const removed: TextEdit = { span: { from: start, to: above.from + chordLine.trimEnd().length }, text: '' };
  const moved = inserted.map(({ span, text: written }): TextEdit => {
    return { span: { from: below.from + span.from, to: below.from + span.to }, text: written };
  });
  return { fix: { edits: [removed, ...moved], certain: places.isCertain }, line };
}

interface Places {
  readonly at: readonly (readonly [at: number, chord: string])[];
  readonly isCertain: boolean;
}

/** One chord to a bar, where both lines have as many bars. */
function byBars(chords: readonly Word[], music: readonly Word[]): Places | undefined {
  if (!chords.some(isBarLine)) return undefined;
  const [over, under] = [barsOf(chords), barsOf(music)];
  if (over.length !== under.length || over.some((bar) => bar.length !== 1)) return undefined;
  const at = over.flatMap(([chord], index) => {
    const [symbol, slot] = [chord && chordOf(chord), under[index]?.[0]];
    return symbol === undefined || !slot ? [] : [[slot.at, symbol] as const];
  });
  return { at, isCertain: true };
}

function barsOf(words: readonly Word[]): Word[][] {
  const bars: Word[][] = [[]];
  for (const word of words) {
    if (isBarLine(word)) bars.push([]);
    else bars.at(-1)?.push(word);
  }
  return bars.filter((bar) => bar.length > 0);
}

/** Each chord at the slot that begins below it, or else at the one that begins next to it. */
function byColumns(chords: readonly Word[], music: readonly Word[]): Places | undefined {
  const slots = music.filter((word) => !isBarLine(word));
  const symbols = chords.filter((word) => !isBarLine(word));
  const at: (readonly [number, string])[] = [];
  let index = 0;
  let isExact = true;
  for (const word of symbols) {
    const away = (slot: Word | undefined): number => (slot ? Math.abs(slot.at - word.at) : Number.POSITIVE_INFINITY);
    while (away(slots[index + 1]) <= away(slots[index]) && index + 1 < slots.length) index++;
    const slot = slots[index];
    const symbol = chordOf(word);
    if (!slot || symbol === undefined || slot.at === at.at(-1)?.[0]) return undefined;
    isExact &&= slot.at === word.at;
    at.push([slot.at, symbol]);
  }
  const [first, second] = symbols;
  // One chord alone at the beginning is that of the beginning.
  const isFirst = second === undefined && first !== undefined && first.at <= (slots[0]?.at ?? -1);
  return { at, isCertain: isExact || isFirst };
}
