/** The same notes over each chord of a form: a note's role changes with the chord. */
import type { Pitch } from '../instrument/pitch.ts';
import type { Playable } from '../instrument/playable.ts';
import { type Chord, sameChord } from './chord.ts';
import { type SongKey, spellInKey } from './key.ts';
import { type Role, roleOf, spell } from './role.ts';

/** One note, and what it is over each chord of the table. */
export interface RoleRow {
  readonly note: Playable;
  /** As the song's key spells it. */
  readonly pitch: Pitch;
  /** What it is over each chord of the table, and how it is spelled there. */
  readonly cells: readonly { readonly role: Role; readonly pitch: Pitch }[];
}

/** Notes against chords. */
export interface RoleTable {
  readonly chords: readonly Chord[];
  readonly rows: readonly RoleRow[];
}

/** Each chord once, in the order of first use. */
export const distinctChords = (chords: readonly Chord[]): readonly Chord[] =>
  chords.filter((chord, index) => chords.findIndex((other) => sameChord(chord, other)) === index);

/** The table of some notes over some chords; equal chords share a column. */
export function roleTable(notes: readonly Playable[], chords: readonly Chord[], key: SongKey): RoleTable {
  const columns = distinctChords(chords);
  const rows = notes.map((note) => ({
    note,
    pitch: spellInKey(note.midi, key),
    cells: columns.map((chord) => ({ role: roleOf(note.midi, chord, key), pitch: spell(note.midi, chord, key) })),
  }));
  return { chords: columns, rows };
}
