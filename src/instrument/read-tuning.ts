/** A tuning as an author defines it: the reeds of a harp in one key, by their note names. */
import { itemAt } from '../values/checked.ts';
import { type Pitch, type PitchClass, pitchNamed, plainPitch, readPitchClass } from './pitch.ts';
import { TUNINGS, type Tuning } from './tuning.ts';

/** What an author writes for a tuning of their own. */
export interface WrittenTuning {
  readonly id: string;
  readonly title?: string | undefined;
  /**
   * The reeds from hole 1 up, as `C E G C` or a list of such. A note with an octave (`F#4`) is exactly that one; without,
   * it is the lowest one at or above the note before (for the first draw reed: the one nearest to the first blow reed).
   */
  readonly blow: string | readonly string[];
  readonly draw: string | readonly string[];
  /** The key of the harp the notes are given for; hole 1 blow where nothing is said. */
  readonly key?: string | undefined;
  /** A slide that raises every reed a half step. */
  readonly slide?: boolean | undefined;
  /** Valved reeds neither bend by the rule of two reeds nor overbend; a harp with a slide is taken to have valves. */
  readonly valves?: boolean | undefined;
}

/** A mistake, and the field it is in. `word` counts the field's notes from 0, where one note is at fault. */
export interface TuningProblem {
  readonly field: 'id' | 'blow' | 'draw' | 'key';
  readonly message: string;
  readonly help?: string;
  readonly word?: number;
}

const FEWEST_HOLES = 4;
const MOST_HOLES = 16;
/** Reeds of one hole further apart than this are a mistake of an octave, not a harp. */
const WIDEST_HOLE = 12;

/** Reads a tuning that an author defines, or returns everything that is wrong with it. */
export function readTuning(
  written: WrittenTuning,
): { readonly tuning: Tuning } | { readonly faults: readonly TuningProblem[] } {
  const faults: TuningProblem[] = [];
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(written.id)) {
    faults.push({
      field: 'id',
      message: `“${written.id}” is no name for a tuning: use small letters, digits and hyphens.`,
    });
  } else if (TUNINGS.some((tuning) => tuning.id === written.id)) {
    faults.push({
      field: 'id',
      message: `The tuning ${written.id} is already there.`,
      help: 'Give your own tuning another id.',
    });
  }
  const blow = readRow('blow', written.blow, undefined, faults);
  const draw = readRow('draw', written.draw, blow[0], faults);
  const key = written.key === undefined ? undefined : readPitchClass(written.key);
  if (written.key !== undefined && !key) faults.push({ field: 'key', message: `“${written.key}” is not a key.` });
  if (faults.length > 0) return { faults };

  const shape = faultOfShape(blow, draw);
  if (shape) return { faults: [shape] };
  const keyNote = keyNoteNear(itemAt(blow, 0), key);
  const valves = written.valves ?? written.slide ?? false;
  return {
    tuning: {
      id: written.id,
      title: written.title ?? written.id,
      blow: blow.map(({ midi }) => midi - keyNote),
      draw: draw.map(({ midi }) => midi - keyNote),
      ...(written.slide ? { slide: 1 } : {}),
      ...(valves ? { valves: true } : {}),
    },
  };
}

/** The notes of one row of reeds; what cannot be read is reported and left out. */
function readRow(
  field: 'blow' | 'draw',
  written: string | readonly string[],
  beside: Pitch | undefined,
  faults: TuningProblem[],
): Pitch[] {
  const words = (typeof written === 'string' ? [written] : written).flatMap((text) =>
    text.split(/[\s,]+/).filter(Boolean),
  );
  const row: Pitch[] = [];
  words.forEach((text, word) => {
    const match = /^(\D+)(\d)?$/.exec(text);
    const name = match && readPitchClass(itemAt(match, 1));
    if (!name) {
      const help = 'Write notes as C, F#, Bb, or with the octave as C4.';
      faults.push({ field, word, message: `“${text}” is not a note.`, help });
      return;
    }
    row.push(match[2] === undefined ? placed(name, row.at(-1), beside) : inOctave(name, Number(match[2])));
  });
  return row;
}

function atOrAbove(name: PitchClass, midi: number): Pitch {
  for (let candidate = midi; ; candidate++) {
    const pitch = pitchNamed(name, candidate);
    if (pitch) return pitch;
  }
}

function inOctave(name: PitchClass, octave: number): Pitch {
  const lowest = atOrAbove(name, 0);
  return { ...lowest, octave, midi: lowest.midi + 12 * (octave - lowest.octave) };
}

/** The lowest hole 1 blow of a standard harp: see `keyNote`. */
const LOWEST_FIRST = 55;

function placed(name: PitchClass, before: Pitch | undefined, beside: Pitch | undefined): Pitch {
  if (before) return atOrAbove(name, before.midi);
  return beside ? atOrAbove(name, beside.midi - 5) : atOrAbove(name, LOWEST_FIRST);
}

function faultOfShape(blow: readonly Pitch[], draw: readonly Pitch[]): TuningProblem | undefined {
  if (blow.length !== draw.length) {
    return {
      field: 'draw',
      message: `There are ${blow.length} blow reeds and ${draw.length} draw reeds.`,
      help: 'Every hole has one of each: list them from hole 1 up.',
    };
  }
  if (blow.length < FEWEST_HOLES || blow.length > MOST_HOLES) {
    return {
      field: 'blow',
      message: `A harp has ${FEWEST_HOLES} to ${MOST_HOLES} holes, and this one ${blow.length}.`,
    };
  }
  const wide = blow.findIndex(({ midi }, index) => Math.abs(midi - itemAt(draw, index).midi) > WIDEST_HOLE);
  if (wide < 0) return undefined;
  const [blown, drawn] = [plainPitch(itemAt(blow, wide)), plainPitch(itemAt(draw, wide))];
  return {
    field: 'draw',
    word: wide,
    message: `The reeds of hole ${wide + 1} would be more than an octave apart: blow ${blown}, draw ${drawn}.`,
    help: 'Write the octave with the note, as in B4, where a row goes down.',
  };
}

/** The MIDI number of the key note nearest to hole 1 blow. */
const keyNoteNear = (first: Pitch, key: PitchClass | undefined): number =>
  key === undefined ? first.midi : atOrAbove(key, first.midi - 5).midi;
