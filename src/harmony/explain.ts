/** What one note is: its pitch and frequency on a harp, its degree in the key, its role over each chord. */
import { bendsOfHole } from '../instrument/bend.ts';
import type { Harp } from '../instrument/harp.ts';
import { chromaOf, mod, type Pitch, printedName } from '../instrument/pitch.ts';
import { inWords, type Playable, tabOf } from '../instrument/playable.ts';
import { endsInQuarter, QUARTER, quarterLabel } from '../instrument/quarter-step.ts';
import { CHROMATIC_STEPS, type Step } from '../instrument/scale.ts';
import { centsOf, EQUAL, frequencyOf, type Pitching } from '../instrument/temperament.ts';
import { itemAt } from '../values/checked.ts';
import { type Chord, printedChord, printedNumeral } from './chord.ts';
import { type SongKey, spellInKey } from './key.ts';
import { numeralOf } from './numeral.ts';
import { type Role, roleInWords, roleOf, spell } from './role.ts';
import { distinctChords } from './role-table.ts';

/** All that `reedway explain` says about one note. */
export interface Explained {
  readonly note: Playable;
  /** `-3'`. */
  readonly tab: string;
  /** `draw 3, half-step bend`. */
  readonly words: string;
  /** As the song's key spells it. */
  readonly pitch: Pitch;
  /** Hertz. */
  readonly frequency: number;
  /** From equal temperament. */
  readonly cents: number;
  readonly degree: Step;
  readonly roles: readonly ExplainedRole[];
  /** How many half steps the reed could be bent, where this breath bends at all. */
  readonly deepest: number;
}

/** The role of the note over one chord. */
export interface ExplainedRole {
  readonly chord: Chord;
  readonly role: Role;
  /** As it is spelled over this chord. */
  readonly pitch: Pitch;
}

/** The degree of a pitch in a key, flat for what lies outside its major scale; a quarter step is named by the degree above it. */
export function degreeIn(midi: number, key: SongKey): Step {
  const step = itemAt(CHROMATIC_STEPS, mod(Math.ceil(midi) - chromaOf(key.tonic), 12));
  if (!endsInQuarter(midi)) return step;
  return { ...step, semitones: mod(step.semitones - QUARTER, 12), label: quarterLabel(step.label) };
}

/** The same chord twice among `chords` is explained once. */
export function explain(
  harp: Harp,
  note: Playable,
  key: SongKey,
  chords: readonly Chord[],
  pitching: Pitching = {},
): Explained {
  const range = bendsOfHole(harp, note.hole);
  return {
    note,
    tab: tabOf(note),
    words: inWords(note),
    pitch: spellInKey(note.midi, key),
    frequency: frequencyOf(harp, note.breath, note, pitching),
    cents: centsOf(harp, note.breath, note, pitching.temperament ?? EQUAL),
    degree: degreeIn(note.midi, key),
    roles: distinctChords(chords).map((chord) => ({
      chord,
      role: roleOf(note.midi, chord, key),
      pitch: spell(note.midi, chord, key),
    })),
    deepest: range.bends === note.breath ? range.deepest : 0,
  };
}

/** `over A7 (I7): C, the flat third`. */
export const roleSentence = ({ chord, role, pitch }: ExplainedRole, key: SongKey): string =>
  `over ${printedChord(chord)} (${printedNumeral(numeralOf(chord, key))}): ${printedName(pitch)}, ${roleInWords(role)}`;
