/** What is written under a score, each syllable with its place in its word. */
import { soundsOf } from '../score/queries.ts';
import type { Event, NoteText, Score, Sound } from '../score/score.ts';
import { linesOfWords } from '../score/verses.ts';

/** A syllable, or a part of the line that holds one over further notes. */
export interface SungText {
  readonly text: string | undefined;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  readonly extend: 'start' | 'continue' | 'stop' | undefined;
}

/** A line of text under a score. */
export interface LineUnder {
  readonly kind: 'syllables' | 'words';
  /** Of words: the verse, or undefined where all of them are in one line. */
  readonly verse?: number | undefined;
  readonly texts: ReadonlyMap<Event, SungText>;
}

/** The lines under a score from the top down: the syllables, if there are any, and then the words. */
export function linesUnder(score: Pick<Score, 'bars'>): LineUnder[] {
  const sounds = soundsOf(score);
  const syllables = textsOf(sounds, ({ syllable }) => syllable);
  return [
    ...(syllables.size === 0 ? [] : [{ kind: 'syllables' as const, texts: syllables }]),
    ...linesOfWords(score.bars).map(({ verse, of }) => ({ kind: 'words' as const, verse, texts: textsOf(sounds, of) })),
  ];
}

/** Each syllable with its place in its word: only the one before says whether it continues a word. */
function textsOf(sounds: readonly Sound[], of: (sound: Sound) => NoteText | undefined): ReadonlyMap<Event, SungText> {
  const sung = sounds.flatMap((sound) => {
    const text = of(sound);
    return text ? [{ sound, text }] : [];
  });
  const texts = new Map<Event, SungText>();
  let continues = false;
  sung.forEach(({ sound, text: lyric }, index) => {
    const held = sung[index + 1]?.text.extends === true;
    if (lyric.extends) {
      texts.set(sound, { text: undefined, syllabic: 'single', extend: held ? 'continue' : 'stop' });
      return;
    }
    const syllabic = lyric.hyphen ? (continues ? 'middle' : 'begin') : continues ? 'end' : 'single';
    texts.set(sound, { text: lyric.text, syllabic, extend: held ? 'start' : undefined });
    continues = lyric.hyphen;
  });
  return texts;
}
