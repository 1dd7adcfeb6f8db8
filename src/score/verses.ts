/**
 * Which verse is sung when. The nth verse is for the nth time through the repeat that its bar belongs to; in an ending it is one
 * of the times that the ending is for. Outside of repeats the verses are for the whole tune.
 */
import { isSoundEvent } from './queries.ts';
import type { Bar, Lyric, Sound } from './score.ts';

/** A block has verses 1 to this. */
export const MOST_VERSES = 9;

type Sung = Pick<Bar, 'events' | 'endings'>;

/** The verses that have words in a bar, in ascending order. */
export const versesIn = ({ events }: Pick<Bar, 'events'>): number[] =>
  [...new Set(events.filter(isSoundEvent).flatMap(({ lyrics = [] }) => lyrics.map(({ verse }) => verse)))].sort(
    (a, b) => a - b,
  );

/** The verse of a bar's first time: 1, or the first time its ending is for. */
export const firstVerse = ({ endings }: Pick<Bar, 'endings'>): number => endings?.[0] ?? 1;

/** The verse that words written for another one count as in an ending: what it is not for is sung its first time. */
export const verseInEnding = (verse: number, endings: readonly number[] | undefined): number =>
  endings === undefined || endings.includes(verse) ? verse : firstVerse({ endings });

/** The verse that is sung in a bar at a time through its repeat. Words for the first time alone are sung each time. */
export function verseSung(bar: Sung, pass: number): number {
  const [verse, ...others] = versesIn(bar);
  return verse === firstVerse(bar) && others.length === 0 ? verse : pass;
}

/** A bar with the words that are sung in it at some of the times through its repeat, as verses from 1 on. */
export function withVerses<B extends Sung>(bar: B, passes: readonly number[]): B {
  const sung = passes.map((pass) => verseSung(bar, pass));
  if (versesIn(bar).every((verse) => sung.includes(verse) && verse === sung.indexOf(verse) + 1)) return bar;
  const events = bar.events.map((event) => {
    if (!isSoundEvent(event) || !event.lyrics) return event;
    const { lyrics, ...sound } = event;
    const kept = lyrics.flatMap((lyric) => {
      const index = sung.indexOf(lyric.verse);
      return index < 0 ? [] : [{ ...lyric, verse: index + 1 }];
    });
    return kept.length === 0 ? sound : { ...sound, lyrics: kept };
  });
  return { ...bar, events };
}

/** What a sound has for a verse. */
export const lyricIn = ({ lyrics }: Pick<Sound, 'lyrics'>, verse: number): Lyric | undefined =>
  lyrics?.find((lyric) => lyric.verse === verse);

/** A line of words under music. */
export interface LineOfWords {
  /** The number before it; undefined where all words are in one line without a number. */
  readonly verse: number | undefined;
  readonly of: (sound: Pick<Sound, 'lyrics'>) => Lyric | undefined;
}

/**
 * The lines of words that a score is shown with, from the top down: one without a number where every bar has words for its first time
 * alone, else one for each verse.
 */
export function linesOfWords(bars: readonly Sung[]): readonly LineOfWords[] {
  const verses = bars.map(versesIn);
  const all = [...new Set(verses.flat())].sort((a, b) => a - b);
  if (all.length === 0) return [];
  const isPlain = bars.every((bar, index) => (verses[index] ?? []).every((verse) => verse === firstVerse(bar)));
  if (isPlain) return [{ verse: undefined, of: ({ lyrics }) => lyrics?.[0] }];
  return all.map((verse) => ({ verse, of: (sound) => lyricIn(sound, verse) }));
}
