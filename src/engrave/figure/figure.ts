/**
 * The pictures that explain: plain values, so that a page can carry one and have it drawn again for another harp.
 * Each is drawn as HTML: tables and lists that read aloud as they are, and take their colours from the page's styles.
 */
import type { Chord, NoChord } from '../../harmony/chord.ts';
import { keyInPosition, type SongKey } from '../../harmony/key.ts';
import { moveChord } from '../../harmony/numeral.ts';
import type { NoteRange } from '../../harmony/target-notes.ts';
import { sounding } from '../../instrument/bend.ts';
import type { HeldHoles } from '../../instrument/easiest-holes.ts';
import { type Breath, HARP_KEYS, type Harp, type HoleNote, keyNote } from '../../instrument/harp.ts';
import { chromaOf, mod } from '../../instrument/pitch.ts';
import type { Playable } from '../../instrument/playable.ts';
import type { ScaleId } from '../../instrument/scale.ts';
import type { Playback } from '../../score/playback.ts';
import type { Fraction } from '../../time/fraction.ts';
import { present } from '../../values/checked.ts';

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

/** How long notes are, as the lanes draw them and the tab writes them. */
export interface NoteLengthsFigure {
  readonly kind: 'note-lengths';
  /** The slot that the signs are written in: a quarter, an eighth or a sixteenth. */
  readonly slot: Fraction;
  readonly title?: string;
}

/** A tune as one harp plays it in one position. */
export interface TuneSide {
  readonly harp: Harp;
  readonly position: number;
  readonly key: SongKey;
  /** Half steps from the pitches as they are written. */
  readonly shift: number;
  /** Notes that are struck as bends, and as overbends. */
  readonly bent: number;
  readonly overbent: number;
  /** How often the breath turns round. */
  readonly turns: number;
  /** 0 to 10. */
  readonly level: number;
}

/** Notes that are struck together: their pitches on the first side, and for each side the holes, or null where it cannot be played. */
export interface SideNote {
  readonly midis: readonly number[];
  readonly held: readonly (HeldHoles | null)[];
}

/** One tune on two harps or in two positions. */
export interface SideBySideFigure {
  readonly kind: 'side-by-side';
  /** Its title. */
  readonly tune: string;
  readonly sides: readonly [TuneSide, TuneSide];
  readonly bars: readonly { readonly number: number; readonly notes: readonly SideNote[] }[];
  readonly title?: string;
}

/** One hole, from its higher reed down. What is not asked for is left out. */
export interface BendLadderFigure {
  readonly kind: 'bend-ladder';
  readonly harp: Harp;
  readonly hole: number;
  readonly overbends?: boolean;
  /** What a tuner shows, and how far each bend is from its reed. */
  readonly cents?: boolean;
  readonly hertz?: boolean;
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

/** A figure that many lessons have. */
export type CommonFigure = RoleTableFigure | HarpMapFigure | FormChartFigure | BendLadderFigure;

/** A figure that few pages have. */
export type RareFigure = TargetNotesFigure | SideBySideFigure | PositionListFigure | TemperamentTableFigure;

/** A figure that shows a harp, and follows the student's. */
export type FigureOnHarp = CommonFigure | RareFigure;

/** A figure as a plain value, which the build and the browser draw alike. */
export type Figure = FigureOnHarp | RhythmLineFigure | NoteLengthsFigure;

const RARE: readonly Figure['kind'][] = ['target-notes', 'side-by-side', 'position-list', 'temperament-table'];

/** Whether a figure is of a kind that few pages have. */
export const isRare = (figure: FigureOnHarp): figure is RareFigure => RARE.includes(figure.kind);

/** Whether a figure shows a harp. */
export const isOnHarp = (figure: Figure): figure is FigureOnHarp =>
  figure.kind !== 'rhythm-line' && figure.kind !== 'note-lengths';

/** The harp that a figure is drawn for; of two, the first. */
export const harpOfFigure = (figure: FigureOnHarp): Harp =>
  figure.kind === 'side-by-side' ? figure.sides[0].harp : figure.harp;

/** The note on a harp. Throws a RangeError where the harp has not got it: authors' notes are checked before. */
export function playedOn(harp: Harp, note: TabNote): Playable {
  const sound = sounding(harp, note.breath, note);
  if ('fault' in sound) throw new RangeError(`${sound.fault} at hole ${note.hole}`);
  return { ...note, midi: sound.midi };
}

/** The same picture on another harp of the same tuning: holes stay, and key, chords and names follow. */
export function moveFigure(figure: FigureOnHarp, harp: Harp): FigureOnHarp {
  if (figure.kind === 'side-by-side') return moveSides(figure, harp);
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

/**
 * The first side on another harp, and the second as far away from it as before, in its own register. Both keep their tuning, for which the
 * holes were found.
 */
function moveSides(figure: SideBySideFigure, { key, register }: Harp): SideBySideFigure {
  const [first, second] = figure.sides;
  const harp = { key, register, tuning: first.harp.tuning };
  const by = keyNote(harp) - keyNote(first.harp);
  const other = harpAt(keyNote(second.harp) + by, second.harp);
  // Where that register has it an octave away, the tune sounds an octave away as well.
  const octaves = keyNote(other) - keyNote(second.harp) - by;
  const side = (own: TuneSide, on: Harp, shift: number): TuneSide => ({
    ...own,
    harp: on,
    key: keyInPosition(on.key, own.position, own.key.mode),
    shift: own.shift + shift,
  });
  return {
    ...figure,
    sides: [side(first, harp, 0), side(second, other, octaves)],
    bars: figure.bars.map((bar) => ({
      ...bar,
      notes: bar.notes.map((note) => ({ ...note, midis: note.midis.map((midi) => midi + by) })),
    })),
  };
}

/** The harp of a register and a tuning whose key note is this one, in whatever octave. */
function harpAt(midi: number, { register, tuning }: Harp): Harp {
  const key = HARP_KEYS.find((one) => chromaOf(one) === mod(midi, 12));
  return { key: present(key, 'a key'), register, tuning };
}
