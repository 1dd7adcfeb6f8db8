/** What is written under a line of music: verses of words, and the syllables a player articulates with. */
import type { Diagnostic, TextSpan } from '../../diagnostics/diagnostic.ts';
import type { Lyric, NoteText, Source } from '../../score/score.ts';
import { MOST_VERSES, verseInEnding } from '../../score/verses.ts';
import { report } from '../problems.ts';
import type { Syllable } from '../tree.ts';

/** A syllable of a line of words, for the verse of the line. */
export interface WrittenWord {
  readonly verse: number;
  readonly syllable: Syllable;
  /** Where its line is written. */
  readonly line: TextSpan;
}

/** What is under a note. */
export interface WithTextUnder {
  /** In the order of the lines. */
  words?: readonly WrittenWord[];
  syllable?: Syllable;
}

/** A line of words or syllables. */
interface LineOfText {
  readonly syllables: readonly Syllable[];
  readonly source: Source;
}

/** A written line of music, and what is under it so far. */
export interface TextUnder {
  readonly sounds: readonly WithTextUnder[];
  readonly verses: Set<number>;
  /** The verse of the last line of words; 0 before the first. */
  lastVerse: number;
  hasSyllables: boolean;
  /** Whether there may be more notes, or fewer, in something unreadable: nothing is counted. */
  readonly isUnsure: boolean;
}

/** Nothing yet under a line with these sounds, which are its attacks. */
export const textUnder = (sounds: readonly WithTextUnder[], isUnsure = false): TextUnder => ({
  isUnsure,
  sounds,
  verses: new Set(),
  lastVerse: 0,
  hasSyllables: false,
});

/** Puts a line of words under its music. */
export function putVerse(
  under: TextUnder,
  { verse = under.lastVerse + 1, syllables, source }: LineOfText & { readonly verse?: number },
  diagnostics: Diagnostic[],
): void {
  if (verse > MOST_VERSES) {
    diagnostics.push(report('verse-number', source.span, { written: `${verse}`, most: MOST_VERSES }));
    return;
  }
  under.lastVerse = verse;
  if (under.verses.has(verse)) {
    diagnostics.push(report('words-twice', source.span, { verse }));
    return;
  }
  under.verses.add(verse);
  put(under, { syllables, source }, diagnostics, (sound, syllable) => {
    sound.words = [...(sound.words ?? []), { verse, syllable, line: source.span }];
  });
}

/** Puts a line of syllables under its music. */
export function putSyllables(under: TextUnder, line: LineOfText, diagnostics: Diagnostic[]): void {
  if (under.hasSyllables) {
    diagnostics.push(report('syllables-twice', line.source.span, {}));
    return;
  }
  under.hasSyllables = true;
  put(under, line, diagnostics, (sound, syllable) => {
    sound.syllable = syllable;
  });
}

/** Gives the sounds of a written line its syllables, in order. */
function put(
  { sounds, isUnsure }: TextUnder,
  { syllables, source }: LineOfText,
  diagnostics: Diagnostic[],
  give: (sound: WithTextUnder, syllable: Syllable) => void,
): void {
  const counts = { syllables: syllables.length, notes: sounds.length };
  if (!isUnsure && syllables.length > 0 && syllables.length < sounds.length)
    diagnostics.push(report('words-too-few', source.span, counts));
  syllables.forEach((syllable, index) => {
    const sound = sounds[index];
    if (sound) {
      if (syllable.kind !== 'skip') give(sound, syllable);
    } else if (index === sounds.length && !isUnsure) {
      const span = { from: syllable.span.from, to: (syllables.at(-1) ?? syllable).span.to };
      diagnostics.push(report('words-too-many', span, counts));
    }
  });
}

/** Reports words of two lines that an ending would sing at one time, at the later one. */
export function checkVerses(
  bars: readonly {
    readonly events: readonly (WithTextUnder & { readonly kind: string })[];
    readonly endings?: readonly number[];
  }[],
  diagnostics: Diagnostic[],
): void {
  for (const { events, endings } of bars) {
    if (endings === undefined) continue;
    for (const { words = [] } of events) {
      words.forEach(({ verse, syllable }, index) => {
        const sung = verseInEnding(verse, endings);
        const isTaken = words.slice(0, index).some((other) => verseInEnding(other.verse, endings) === sung);
        if (isTaken) diagnostics.push(report('verse-against-ending', syllable.span, { time: sung }));
      });
    }
  }
}

/** A syllable as a score has it. */
export const noteText = (syllable: Syllable): NoteText =>
  syllable.kind === 'text'
    ? { text: syllable.text, hyphen: syllable.hyphen, extends: false }
    : { text: '', hyphen: false, extends: true };

/** The words of a sound as a score has them; `endings` are those of its bar. */
export const lyricsOf = (words: readonly WrittenWord[], endings: readonly number[] | undefined): Lyric[] =>
  words
    .map(({ verse, syllable }): Lyric => ({ verse: verseInEnding(verse, endings), ...noteText(syllable) }))
    .sort((a, b) => a.verse - b.verse);
