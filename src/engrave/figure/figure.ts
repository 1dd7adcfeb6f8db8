/**
 * The pictures that explain: plain values, so that a page can carry one and have it drawn again for another harp.
 * Each is drawn as HTML: tables and lists that read aloud as they are, and take their colours from the page's styles.
 */
import type { Chord, NoChord } from '../../harmony/chord.ts';
import { keyInPosition, type SongKey } from '../../harmony/key.ts';
import { moveChord } from '../../harmony/numeral.ts';
import type { NoteRange } from '../../harmony/target-notes.ts';
import { sounding } from '../../instrument/bend.ts';
import type { Breath, Harp, HoleNote } from '../../instrument/harp.ts';
import type { Playable } from '../../instrument/playable.ts';
import type { ScaleId } from '../../instrument/scale.ts';
import type { Playback } from '../../score/playback.ts';

/** A note as written: what is played, whatever it sounds on the student's harp. */
export interface TabNote extends HoleNote {
  readonly breath: Breath;
}

interface Placed {
  readonly harp: Harp;
  /** 1 to 12. */
  readonly position: number;
  readonly key: SongKey;
  /** The author's own title; one that says what is shown, and on which harp, replaces it. */
  readonly title?: string;
}

/** Notes against chords: what each note is over each chord. */
export interface RoleTableFigure extends Placed {
  readonly kind: 'role-table';
  readonly notes: readonly TabNote[];
  /** Each once. */
  readonly chords: readonly Chord[];
}

/** What is lit on a map. */
export type Lit =
  | { readonly by: 'scale'; readonly scale: ScaleId }
  | { readonly by: 'chord'; readonly chord: Chord }
  /** `what` says whose notes they are: `the phrase “answer”`. */
  | { readonly by: 'notes'; readonly notes: readonly TabNote[]; readonly what: string };

/** All notes of a harp, hole by hole. */
export interface HarpMapFigure extends Placed {
  readonly kind: 'harp-map';
  readonly show: 'notes' | 'degrees' | 'roles';
  readonly bends: boolean;
  readonly overbends: boolean;
  readonly lit?: Lit;
  /** What roles count from; the lit chord where there is one. */
  readonly chord?: Chord;
}

/** The chords of a form, bar by bar. */
export interface FormChartFigure extends Placed {
  readonly kind: 'form-chart';
  readonly form: string;
  readonly bars: readonly { readonly chords: readonly (Chord | NoChord)[]; readonly target?: TabNote }[];
}

/** The tones of each chord on some holes, with the ways into each. */
export interface TargetNotesFigure extends Placed, NoteRange {
  readonly kind: 'target-notes';
  /** Each once. */
  readonly chords: readonly Chord[];
}

/** Strokes without pitch, on no harp. */
export interface RhythmLineFigure {
  readonly kind: 'rhythm-line';
  /** What is played; whatever holes its notes are on. */
  readonly playback: Playback;
  /** By the index of the event. */
  readonly syllables: readonly (string | null)[];
  readonly title?: string;
}

/** The bends of some holes, from the plain reed down. */
export interface BendLadderFigure {
  readonly kind: 'bend-ladder';
  readonly harp: Harp;
  readonly hole: number;
  readonly title?: string;
}

/** All twelve positions of a harp, each with its scales. */
export interface PositionListFigure {
  readonly kind: 'position-list';
  readonly harp: Harp;
}

/** Each reed's ratio and cents in every temperament. */
export interface TemperamentTableFigure {
  readonly kind: 'temperament-table';
  readonly harp: Harp;
}

/** A figure as a plain value, which the build and the browser draw alike. */
export type Figure =
  | RoleTableFigure
  | HarpMapFigure
  | FormChartFigure
  | TargetNotesFigure
  | RhythmLineFigure
  | BendLadderFigure
  | PositionListFigure
  | TemperamentTableFigure;

/** The note on a harp. Throws a RangeError where the harp has not got it: authors' notes are checked before. */
export function playedOn(harp: Harp, note: TabNote): Playable {
  const sound = sounding(harp, note.breath, note);
  if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${note.hole}`);
  return { ...note, midi: sound.midi };
}

/** The same picture on another harp of the same tuning: holes stay, and key, chords and names follow. */
export function moveFigure(figure: Figure, harp: Harp): Figure {
  if (!('harp' in figure)) return figure;
  if (!('key' in figure)) return { ...figure, harp };
  const key = keyInPosition(harp.key, figure.position, figure.key.mode);
  const move = (chord: Chord): Chord => moveChord(chord, figure.key, key);
  switch (figure.kind) {
    case 'role-table':
    case 'target-notes':
      return { ...figure, harp, key, chords: figure.chords.map(move) };
    case 'harp-map': {
      const { lit, chord } = figure;
      return {
        ...figure,
        harp,
        key,
        ...(lit?.by === 'chord' ? { lit: { ...lit, chord: move(lit.chord) } } : {}),
        ...(chord ? { chord: move(chord) } : {}),
      };
    }
    case 'form-chart':
      return {
        ...figure,
        harp,
        key,
        bars: figure.bars.map((bar) => ({
          ...bar,
          chords: bar.chords.map((chord) => (chord === 'none' ? chord : move(chord))),
        })),
      };
  }
}
