/** The bass: figures on the tones of the chord, that lead into the next one. */
import type { BassCue } from '../cue.ts';
import { type BandBar, type ChordSpan, letters, nameOf, pick, uneven } from './bar.ts';
import type { BeatKind } from './style.ts';
import { bassRoot, bassTone, octaveNear, tonesOf } from './voicing.ts';

const changes = ({ chord, next }: ChordSpan): boolean => next !== undefined && nameOf(next) !== nameOf(chord);

/** The bass of one bar. */
export function bassOf(bar: BandBar): BassCue[] {
  const pattern = pick(bar.style.bass, bar.chorus);
  const notes: { at: number; midi: number; level: number; until: number }[] = [];
  for (const span of bar.spans) {
    const place = (beat: number): number => Math.floor(beat - span.from) + (span.held % 2) * bar.kinds.length;
    const leads = (beat: number): boolean => changes(span) && beat > span.from && beat + 1 >= span.to;
    const cell = (_kind: BeatKind, beat: number): string => {
      if (beat + 1 <= span.from || beat >= span.to) return '';
      return leads(beat) ? pattern.approach : pick(pattern.cells, Math.max(0, place(beat)));
    };
    const end = bar.time(Math.floor(span.to), span.to % 1, 1) ?? bar.end;
    let started = false;
    for (const { letter, at, beat, part, parts } of letters(bar, cell)) {
      if (bar.chordAt(beat, part, parts) !== span) continue;
      if (letter === '.' && started) continue;
      const midi = bassNote(started ? letter : 'R', span, bar.random);
      // A chord that comes in does so on its root; one that continues from the bar before need not. A bass that is written
      // begins every bar.
      const mayVary = span.held > 0 && span.chord.bass === undefined;
      const entered = !started && mayVary && letter !== '.' ? bassNote(letter, span, bar.random) : midi;
      const before = notes.at(-1);
      if (before) before.until = Math.min(before.until, at);
      notes.push({ at, midi: entered, level: uneven(part === 0 ? 0.9 : 0.65, bar.random), until: end });
      started = true;
    }
  }
  return notes.map(({ at, midi, level, until }) => ({ kind: 'bass', at, seconds: until - at, midi, level }));
}

function bassNote(letter: string, { chord, next }: ChordSpan, random: () => number): number {
  const root = bassRoot(chord);
  const { third, fifth, sixth, seventh } = tonesOf(chord);
  switch (letter) {
    case '3':
      return bassTone(chord, third);
    case '5':
      return bassTone(chord, fifth);
    case '6':
      return bassTone(chord, sixth);
    case '7':
      return bassTone(chord, seventh);
    case '8':
      return root + 12;
    case 'a':
      return next ? bassRoot(next) + (random() < 0.5 ? 1 : -1) : bassTone(chord, fifth);
    default:
      return root;
  }
}

/** Places each note in the octave closest to the note before, in the direction the figure asks for. */
export function walked(cues: readonly BassCue[]): BassCue[] {
  let before: number | undefined;
  return cues.map((cue) => {
    before = before === undefined ? cue.midi : octaveNear(cue.midi, before);
    return { ...cue, midi: before };
  });
}
