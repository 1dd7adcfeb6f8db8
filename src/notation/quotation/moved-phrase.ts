/** A quotation that is moved to another chord: each note keeps its role, and the holes for it are found on the harp. */
import type { Chord } from '../../harmony/chord.ts';
import type { SongKey } from '../../harmony/key.ts';
import { movedPitch, rootShifts } from '../../harmony/moved-role.ts';
import { spell } from '../../harmony/role.ts';
import { sounding } from '../../instrument/bend.ts';
import { type EasiestHoles, easiestHoles, type HeldHoles, type WantedSound } from '../../instrument/easiest-holes.ts';
import type { Breath, Harp, HoleNote } from '../../instrument/harp.ts';
import { plainPitch } from '../../instrument/pitch.ts';
import { tabOfNotes } from '../../instrument/playable.ts';
import { endsInQuarter, QUARTER } from '../../instrument/quarter-step.ts';
import { areSideBySide } from '../../instrument/split.ts';
import { graceAmong, graceLeadsInto, type SmallNote } from '../../score/mark.ts';
import { itemAt, present } from '../../values/checked.ts';
import type { NoteItem } from '../tree.ts';

/** A note of a quotation. */
export interface QuotedNote {
  readonly note: NoteItem;
  readonly glides: boolean;
}

/** The chords between which a quotation moves, in the key of its new block, and the harp that plays it. */
export interface Move {
  readonly from: Chord;
  readonly to: Chord;
  readonly key: SongKey;
  readonly harp: Harp;
}

/**
 * The notes as they are played over the other chord: up or down, whichever takes less effort, and an octave further only where a note
 * would be missing or need an overbend. Where no way plays all of them, `impossible` says which note stands in the way. Notes that this harp
 * has not got are left as they are: they are reported where they are written.
 */
export function movePhrase(
  notes: readonly QuotedNote[],
  { from, to, key, harp }: Move,
): readonly NoteItem[] | { readonly impossible: string } {
  const sounds = notes.flatMap(soundsIn);
  const pitches = sounds.map((sound) => pitchesOf(sound, harp));
  if (!pitches.every((own) => own !== undefined)) return notes.map(({ note }) => note);
  const wantedAt = (shift: number): WantedSound[] =>
    sounds.map((sound, index) => ({
      pitches: itemAt(pitches, index).map((midi) => movedPitch(midi, from, to, shift)),
      glides: sound.glides,
      sideBySide: areSideBySide(sound.notes),
    }));
  const shifts = rootShifts(from, to);
  const ways = shifts.flatMap((shift): Way[] => {
    const found = easiestHoles(harp, wantedAt(shift));
    return found ? [{ ...found, far: Math.abs(shift) >= 12 }] : [];
  });
  const best = ways.reduce<Way | undefined>((least, way) => (least && !isBetter(way, least) ? least : way), undefined);
  if (best) {
    const held = [...best.sounds];
    return notes.map(({ note }) => {
      const grace = graceIn(note) && held.shift();
      return replaced(note, present(held.shift(), 'a moved note'), grace);
    });
  }
  const nameOf = (midi: number): string =>
    endsInQuarter(midi) ? `a quarter step below ${nameOf(midi + QUARTER)}` : plainPitch(spell(midi, to, key));
  return { impossible: obstacle(sounds, shifts.map(wantedAt), nameOf, harp) };
}

/** Notes on one breath: of a note of the quotation, or its grace note. */
interface QuotedSound {
  readonly breath: Breath;
  readonly notes: readonly HoleNote[];
  readonly glides: boolean;
}

const graceIn = ({ marks }: NoteItem): SmallNote | undefined => graceAmong(marks.map(({ mark }) => mark));

/** A note, with its grace note before it. */
function soundsIn({ note, glides }: QuotedNote): QuotedSound[] {
  const grace = graceIn(note);
  const before = grace && { breath: grace.breath, notes: [grace], glides: graceLeadsInto(grace, note) };
  return [...(before ? [before] : []), { ...note, glides }];
}

interface Way extends EasiestHoles {
  readonly far: boolean;
}

/** Of equals, the nearer one, which comes first. */
const isBetter = (a: Way, b: Way): boolean =>
  a.overbends !== b.overbends ? !a.overbends : a.far !== b.far ? !a.far : a.effort < b.effort;

function pitchesOf({ notes, breath }: QuotedSound, harp: Harp): number[] | undefined {
  const sounds = notes.map((note) => sounding(harp, breath, note));
  return sounds.every((sound) => 'midi' in sound) ? sounds.map(({ midi }) => midi) : undefined;
}

function replaced(note: NoteItem, { breath, notes }: HeldHoles, grace: HeldHoles | undefined): NoteItem {
  const by = itemAt(notes, 0).hole - itemAt(note.notes, 0).hole;
  return {
    ...note,
    breath,
    notes: note.notes.map(({ span }, index) => {
      const { hole, bend, over, slide } = itemAt(notes, index);
      return { hole, bend, over, slide, span };
    }),
    marks: note.marks.map(({ mark, span }) => {
      // A shake keeps the distance to its other hole.
      if ('hole' in mark) return { mark: { ...mark, hole: mark.hole + by }, span };
      if (!('note' in mark) || !grace) return { mark, span };
      return { mark: { ...mark, note: { ...itemAt(grace.notes, 0), breath: grace.breath } }, span };
    }),
  };
}

/** Which note cannot be played, where as few as possible cannot. */
function obstacle(
  notes: readonly QuotedSound[],
  ways: readonly (readonly WantedSound[])[],
  nameOf: (midi: number) => string,
  harp: Harp,
): string {
  const missing = ways.map((wanted) =>
    wanted.flatMap((sound, index) => (easiestHoles(harp, [{ ...sound, glides: false }]) ? [] : [index])),
  );
  const fewest = missing.reduce((least, own, way) => (own.length < itemAt(missing, least).length ? way : least), 0);
  const [first] = itemAt(missing, fewest);
  const tab = (index: number): string => {
    const sound = itemAt(notes, index);
    return tabOfNotes(sound.notes, sound.breath);
  };
  if (first === undefined) {
    const glide = notes.findIndex(({ glides }, index) => {
      const pair = itemAt(ways, fewest).slice(index, index + 2);
      return glides && pair.length === 2 && !easiestHoles(harp, pair);
    });
    return glide < 0 ? 'its glides would change the breath' : `the glide from ${tab(glide)} would change the breath`;
  }
  const { pitches } = itemAt(itemAt(ways, fewest), first);
  const names = pitches.map(nameOf);
  return names.length === 1
    ? `${tab(first)} becomes ${names[0]}, which no hole gives`
    : `${tab(first)} becomes ${names.join(' and ')}, which no breath gives together`;
}
