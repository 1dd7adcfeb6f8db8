/** Words and syllables under a line of music, written at random. */
import fc from 'fast-check';

const syllable = fc.constantFrom('la', 'so-', 'two-three', 'A', '’Twas', '_', '*', '*', '#');

/** What may be under a line: which verses, and the syllables of each; of those a line takes as many as it has notes. */
export interface Under {
  readonly verses: readonly number[];
  /** Whether each number is written that could be left out. */
  readonly numbered: boolean;
  readonly words: readonly (readonly string[])[];
  readonly syllables: readonly string[] | undefined;
}

const texts = fc.array(syllable, { minLength: 1, maxLength: 12 });

export const under: fc.Arbitrary<Under> = fc.record({
  verses: fc.oneof(fc.constantFrom([], [1], [1, 2], [2], [1, 2, 3, 4]), fc.subarray([1, 2, 3, 4, 5, 6, 7, 8, 9])),
  numbered: fc.boolean(),
  words: fc.array(texts, { minLength: 9, maxLength: 9 }),
  syllables: fc.option(texts, { nil: undefined }),
});

/** The attacked notes of music as the generator writes it. */
export const attacksIn = (music: string): number =>
  music
    .replace(/"[^"]*"|\[[^\]]*\]/g, ' ')
    .replace(/-?\([^)]*\)/g, '9')
    .replace(/:\|x\d|\|[\d,]+(?=\s)|[.=}]\d+/g, ' ')
    .match(/[-+]?\d+/g)?.length ?? 0;

/** The lines under music with so many notes, of which the later verses have words for `later` alone. */
export function linesUnder({ verses, numbered, words, syllables }: Under, notes: number, later: number): string[] {
  const fitting = (line: readonly string[], most: number): string => {
    const fits: string[] = [];
    let count = 0;
    for (const one of line) {
      count += one.split('-').filter(Boolean).length;
      if (count <= most) fits.push(one);
      else break;
    }
    return fits.join(' ');
  };
  const lines = verses.map((verse, index) => {
    const follows = verse === (verses[index - 1] ?? 0) + 1;
    const text = fitting(words[verse - 1] ?? [], index === 0 ? notes : later);
    return `words${follows && !numbered ? '' : ` ${verse}`}: ${text}`;
  });
  return [...(syllables ? [`syllables: ${fitting(syllables, notes)}`] : []), ...lines];
}
