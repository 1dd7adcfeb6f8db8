/** The tones of a chord on a harp, and the notes from which a line comes into each: what a player looks up before making up a solo. */
import { effortBetween, effortOf, type HeldHoles } from '../instrument/easiest-holes.ts';
import type { Harp } from '../instrument/harp.ts';
import type { Pitch } from '../instrument/pitch.ts';
import { meansOf, notesOf, type Playable } from '../instrument/playable.ts';
import type { Chord } from './chord.ts';
import type { SongKey } from './key.ts';
import { type Role, roleOf, spell } from './role.ts';

/**
 * How a line comes into a note: by letting a bend go a half step up, by bending down, from the note above on a plain reed (a half step or a
 * whole step away), or on the same breath from the plain reed of the same hole or of one beside it. In the order in which two ways of one effort are listed.
 */
export const APPROACHES = ['release', 'bend', 'above', 'breath'] as const;
export type ApproachKind = (typeof APPROACHES)[number];

/** A note before a target note. */
export interface Approach {
  readonly kind: ApproachKind;
  readonly from: Playable;
  /** Of both notes and the step between them, as {@link easiestHoles} measures it. */
  readonly effort: number;
}

/** A tone of a chord on the harp. */
export interface TargetNote {
  readonly note: Playable;
  readonly role: Role;
  readonly pitch: Pitch;
  /** From the easiest on. */
  readonly approaches: readonly Approach[];
}

/** Which notes of the harp are looked at, for targets and for the notes before them. */
export interface NoteRange {
  /** The first and the last hole. */
  readonly holes: readonly [number, number];
  readonly bends: boolean;
  readonly overbends: boolean;
}

/** The tones of a chord within a range of the harp, from the lowest pitch up and of one pitch by hole, each with the ways into it. */
export function targetNotes(harp: Harp, chord: Chord, key: SongKey, range: NoteRange): readonly TargetNote[] {
  const [first, last] = range.holes;
  const notes = notesOf(harp).filter(
    (note) =>
      note.hole >= first &&
      note.hole <= last &&
      (range.bends || note.bend === 0) &&
      (range.overbends || !note.over) &&
      // With the slide pressed a bend is seldom meant.
      !(note.slide && (note.over || note.bend > 0)),
  );
  return notes
    .flatMap((note): TargetNote[] => {
      const role = roleOf(note.midi, chord, key);
      if (!role.tone) return [];
      return [{ note, role, pitch: spell(note.midi, chord, key), approaches: approachesOf(note, notes) }];
    })
    .sort((a, b) => a.note.midi - b.note.midi);
}

function approachesOf(note: Playable, notes: readonly Playable[]): Approach[] {
  return notes
    .flatMap((from): Approach[] => {
      const kind = approachBetween(from, note);
      if (!kind) return [];
      return [{ kind, from, effort: effortOf(from) + effortOf(note) + effortBetween(held(from), held(note)) }];
    })
    .sort((a, b) => a.effort - b.effort || APPROACHES.indexOf(a.kind) - APPROACHES.indexOf(b.kind));
}

function approachBetween(from: Playable, to: Playable): ApproachKind | undefined {
  const onOneReed =
    from.hole === to.hole && from.breath === to.breath && from.slide === to.slide && !from.over && !to.over;
  if (onOneReed) {
    if (from.bend === to.bend + 1) return 'release';
    // A deep bend is reached from its reed, or from the bend that is a half step less deep.
    return from.bend < to.bend && (from.bend === 0 || from.bend === to.bend - 1) ? 'bend' : undefined;
  }
  const means = meansOf(from);
  if (means !== 'reed' && means !== 'slide') return undefined;
  const down = from.midi - to.midi;
  if (down === 1 || down === 2) return 'above';
  const isBeside = from.breath === to.breath && Math.abs(from.hole - to.hole) <= 1 && from.slide === to.slide;
  return isBeside ? 'breath' : undefined;
}

const held = (note: Playable): HeldHoles => ({ breath: note.breath, notes: [note] });
