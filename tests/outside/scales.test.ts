/** Scales, modes and chord tones in all keys and positions against the theory library tonal. */
import { Note, Chord as TonalChord, Scale as TonalScale } from 'tonal';
import { describe, expect, it } from 'vitest';
import { songKey } from '../../src/harmony/key.ts';
import { roleOf } from '../../src/harmony/role.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { type Harp, readHarp, tonicInPosition } from '../../src/instrument/harp.ts';
import { chromaOf, plainName, plainPitch } from '../../src/instrument/pitch.ts';
import { notesOf } from '../../src/instrument/playable.ts';
import { POSITIONS, positionOn } from '../../src/instrument/position.ts';
import { CHURCH_MODES, layOut, SCALES, scaleNoteNames, scaleOf, stepsOf } from '../../src/instrument/scale.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';

const KEYS = ['G', 'Ab', 'A', 'Bb', 'B', 'C', 'Db', 'D', 'Eb', 'E', 'F', 'F#'] as const;
const harp = (name: string): Harp => present(readHarp(name, RICHTER), 'the harp');
/** What tonal calls our scales. */
const THEIRS: Readonly<Record<string, string>> = {
  blues: 'minor blues',
  'major-pentatonic': 'major pentatonic',
  'minor-pentatonic': 'minor pentatonic',
  'harmonic-minor': 'harmonic minor',
};
const tonalName = (id: string): string => THEIRS[id] ?? id;

describe.each(KEYS)('a harp in %s', (key) => {
  it.each(POSITIONS)('has the tonic of position %i a fifth above the one before', (position) => {
    const tonic = plainName(tonicInPosition(harp(key).key, position));
    const theirs = Note.transposeFifths(key, position - 1);
    expect(Note.chroma(tonic)).toBe(Note.chroma(theirs));
  });

  it('spells every scale in every position as tonal does from the same tonic', () => {
    for (const position of POSITIONS) {
      const tonic = tonicInPosition(harp(key).key, position);
      for (const scale of SCALES) {
        const names = scaleNoteNames(tonic, stepsOf(scale)).map(plainName);
        const theirs = TonalScale.get(`${names[0]} ${tonalName(scale.id)}`).notes;
        // Where theory wants a double flat, players write the plain note, and so do we.
        expect(names).toEqual(theirs.map((name) => (/bb|##/.test(name) ? Note.enharmonic(name) : name)));
      }
    }
  });

  it('lays every scale out on exactly the notes tonal gives, over the whole harp', () => {
    for (const position of POSITIONS) {
      const tonic = tonicInPosition(harp(key).key, position);
      for (const scale of SCALES) {
        const laid = layOut(harp(key), tonic, stepsOf(scale));
        const chromas = new Set(
          TonalScale.get(`${plainName(tonic)} ${tonalName(scale.id)}`).notes.map((name) => Note.chroma(name)),
        );
        const reached = notesOf(harp(key))
          .filter((note) => !note.over)
          .map((note) => note.midi);
        const expected: number[] = [];
        for (let midi = Math.min(...reached); midi <= Math.max(...reached); midi++)
          if (chromas.has(midi % 12)) expected.push(midi);
        expect(laid.map(({ pitch }) => pitch.midi)).toEqual(expected);
        expect(laid.map(({ pitch }) => Note.midi(plainPitch(pitch)))).toEqual(expected);
        for (const each of laid) expect(each.places.every((place) => place.midi === each.pitch.midi)).toBe(true);
      }
    }
  });

  it('has in each position the mode tonal finds on the notes of its reeds', () => {
    const naturals = TonalScale.get(`${key} major`).notes;
    for (const position of POSITIONS) {
      const tonic = tonicInPosition(harp(key).key, position);
      const ours = positionOn(harp(key), position).modes.map(({ id }) => id);
      const chromas = naturals.map((name) => Note.chroma(name));
      const theirs = CHURCH_MODES.filter((mode) =>
        TonalScale.get(`${plainName(tonic)} ${mode}`).notes.every((name) => chromas.includes(Note.chroma(name))),
      );
      expect(ours).toEqual(theirs);
    }
  });

  it('finds the chord tones tonal finds, over every chord of the usual forms', () => {
    for (const position of POSITIONS) {
      const song = songKey(tonicInPosition(harp(key).key, position), 'major');
      for (const symbol of [
        'I7',
        'IV7',
        'V7',
        'i7',
        'iv7',
        'ii7',
        'bVI7',
        'I',
        'vi',
        'Imaj7',
        'viim7b5',
        'viidim7',
        'V9',
      ]) {
        const chord = readChord(symbol, song);
        if (!chord) throw new Error(symbol);
        const theirs = TonalChord.getChord(chord.suffix, plainName(chord.root)).notes.map((name) => Note.chroma(name));
        const ours = Array.from({ length: 12 }, (_, chroma) => chroma).filter(
          (chroma) => roleOf(chroma, chord, song).tone,
        );
        expect(ours.sort((a, b) => a - b)).toEqual([...theirs].sort((a, b) => Number(a) - Number(b)));
        expect(roleOf(chromaOf(chord.root), chord, song).label).toBe('R');
      }
    }
  });
});

describe('the positions of a C harp (convention of the circle of fifths; modes of the first two from the textbook wiki page "Positions", the rest common practice)', () => {
  it('has the published keys and modes', () => {
    const positions = POSITIONS.map((number) => positionOn(harp('C'), number));
    expect(positions.map(({ tonic }) => plainName(tonic)).join(' ')).toBe('C G D A E B F# Db Ab Eb Bb F');
    expect(positions.map(({ modes }) => modes[0]?.id)).toEqual([
      'ionian', 'mixolydian', 'dorian', 'aeolian', 'phrygian', 'locrian', undefined, undefined, undefined, undefined, undefined, 'lydian',
    ]); // biome-ignore format: a row
  });

  it('has a tonic on plain reeds at the holes the source sheet computes', () => {
    const home = (number: number) =>
      positionOn(harp('C'), number)
        .tonicPlaces.map(({ breath, hole }) => `${hole}${breath === 'blow' ? 'b' : 'd'}`)
        .sort();
    expect(home(1)).toEqual(['10b', '1b', '4b', '7b']);
    expect(home(2)).toEqual(['2d', '3b', '6b', '9b']);
    expect(home(3)).toEqual(['1d', '4d', '8d']);
    expect(home(4)).toEqual(['10d', '6d']);
    expect(home(5)).toEqual(['2b', '5b', '8b']);
    expect(home(6)).toEqual(['3d', '7d']);
    expect(home(12)).toEqual(['5d', '9d']);
    for (const number of [7, 8, 9, 10, 11]) expect(home(number)).toEqual([]);
  });

  it("plays the low blues scale of cross position as players do: 2d 3d' 4b 4d' 4d 5d 6b (common practice, no source)", () => {
    const laid = layOut(harp('C'), { letter: 'G', alter: 0 }, stepsOf(scaleOf('blues') as never));
    const octave = laid.filter(({ pitch }) => pitch.midi >= 67 && pitch.midi <= 79);
    const easiest = octave.map(({ places }) =>
      places.map(({ hole, breath, bend }) => `${hole}${breath[0]}${"'".repeat(bend)}`),
    );
    const players = ['2d', "3d'", '4b', "4d'", '4d', '5d', '6b'];
    expect(octave).toHaveLength(players.length);
    players.forEach((place, index) => {
      expect(easiest[index]).toContain(place);
    });
  });
});
