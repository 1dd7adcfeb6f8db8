/** The keys: the chord of the moment, struck or held. */
import type { ChordCue } from '../cue.ts';
import { type BandBar, letters, pick, uneven } from './bar.ts';
import { voicing } from './voicing.ts';

/** The chords of one bar. */
export function chordsOf(bar: BandBar): ChordCue[] {
  // The fourth bar of a phrase answers the three before it.
  const pattern = pick(bar.style.chords, bar.chorus + (bar.ends === 'phrase' ? 1 : 0));
  const cues: ChordCue[] = [];
  let holding = false;
  for (const span of bar.spans) {
    const start = bar.time(Math.floor(span.from), span.from % 1, 1);
    const end = bar.time(Math.floor(span.to), span.to % 1, 1) ?? bar.end;
    const midis = voicing(span.chord);
    const inSpan = [...letters(bar, (kind) => pattern[kind])].filter(
      ({ letter, beat, part, parts }) => letter !== '.' && bar.chordAt(beat, part, parts) === span,
    );
    // A change of chord that falls between two strokes is played when it comes.
    const strokes = inSpan.map(({ letter, at }) => ({ letter, at }));
    if (start !== undefined && strokes[0]?.at !== start && (holding || strokes.length === 0)) {
      strokes.unshift({ letter: holding ? 'p' : 's', at: start });
    }
    for (const [index, { letter, at }] of strokes.entries()) {
      holding = letter === 'p';
      if (letter === '-') continue;
      const until = strokes[index + 1]?.at ?? end;
      const touch = holding ? 'pad' : 'stab';
      const seconds = holding ? until - at : Math.min(0.16, until - at);
      cues.push({ kind: 'chord', at, seconds, midis, level: uneven(holding ? 0.5 : 0.8, bar.random), touch });
    }
  }
  return cues;
}
