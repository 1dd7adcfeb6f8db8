/** The words under a score, each syllable with its place in its word. */
import { soundsOf } from '../score/queries.ts';
import type { Event, Score } from '../score/score.ts';

/** A syllable, or a part of the line that holds one over further notes. */
export interface SungText {
  readonly text: string | undefined;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  readonly extend: 'start' | 'continue' | 'stop' | undefined;
}

/** Each syllable with its place in its word: only the one before says whether it continues a word. */
export function syllablesOf(score: Pick<Score, 'bars'>): ReadonlyMap<Event, SungText> {
  const sung = soundsOf(score).filter(({ lyric }) => lyric !== undefined);
  const syllables = new Map<Event, SungText>();
  let continues = false;
  sung.forEach((sound, index) => {
    const { lyric } = sound;
    if (!lyric) return;
    const held = sung[index + 1]?.lyric?.extends === true;
    if (lyric.extends) {
      syllables.set(sound, { text: undefined, syllabic: 'single', extend: held ? 'continue' : 'stop' });
      return;
    }
    const syllabic = lyric.hyphen ? (continues ? 'middle' : 'begin') : continues ? 'end' : 'single';
    syllables.set(sound, { text: lyric.text, syllabic, extend: held ? 'start' : undefined });
    continues = lyric.hyphen;
  });
  return syllables;
}
