/** Prints what is under a line of music: the syllables it is articulated with, and its verses. */
import { isSoundEvent } from '../../score/queries.ts';
import type { Bar, NoteText, Sound } from '../../score/score.ts';
import { firstVerse, lyricIn, versesIn } from '../../score/verses.ts';

/** The lines under these bars, which are one written line. */
export function printTextUnder(bars: readonly Bar[]): string[] {
  const syllables = printLine(bars, ({ syllable }) => syllable);
  return [...(syllables === undefined ? [] : [`syllables: ${syllables}`]), ...printVerses(bars)];
}

function printVerses(bars: readonly Bar[]): string[] {
  // Words for the first time of a later ending are in the first line, as those of all first times, unless their verse has a line.
  const later = (bar: Bar, verse: number): boolean => firstVerse(bar) > 1 && verse === firstVerse(bar);
  const numbered = new Set(bars.flatMap((bar) => versesIn(bar).filter((verse) => !later(bar, verse))));
  const lineOf = (bar: Bar, verse: number): number => (later(bar, verse) && !numbered.has(verse) ? 1 : verse);
  const lines = [...new Set(bars.flatMap((bar) => versesIn(bar).map((verse) => lineOf(bar, verse))))];
  lines.sort((a, b) => a - b);
  return lines.flatMap((line, index) => {
    const words = printLine(bars, (sound, bar) => {
      const verse = versesIn(bar).find((own) => lineOf(bar, own) === line);
      return verse === undefined ? undefined : lyricIn(sound, verse);
    });
    const follows = line === (lines[index - 1] ?? 0) + 1;
    return words === undefined ? [] : [`words${follows ? '' : ` ${line}`}: ${words}`];
  });
}

/** A syllable or its sign for each attack, or undefined where no note has one. */
function printLine(bars: readonly Bar[], textOf: (sound: Sound, bar: Bar) => NoteText | undefined): string | undefined {
  const texts = bars.flatMap((bar) =>
    bar.events
      .filter(isSoundEvent)
      .filter(({ tied }) => !tied)
      .map((sound) => textOf(sound, bar)),
  );
  if (texts.every((text) => text === undefined)) return undefined;
  return texts.map((text) => (text ? (text.extends ? '_' : text.text + (text.hyphen ? '-' : '')) : '*')).join(' ');
}
