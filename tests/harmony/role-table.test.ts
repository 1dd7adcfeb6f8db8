import { describe, expect, it } from 'vitest';
import { type Chord, plainChord } from '../../src/harmony/chord.ts';
import { songKey } from '../../src/harmony/key.ts';
import { distinctChords, roleTable } from '../../src/harmony/role-table.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { notesOfHole } from '../../src/instrument/playable.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { itemAt, present } from '../../src/values/checked.ts';

const key = songKey({ letter: 'E', alter: 0 }, 'major');
const chord = (symbol: string): Chord => present(readChord(symbol, key), 'the chord');
const A = present(readHarp('A', RICHTER), 'the harp');

describe('a role table', () => {
  const table = roleTable(notesOfHole(A, 3).slice(1, 5), ['I7', 'IV7', 'I7', 'V7', 'IV7'].map(chord), key);

  it('has each chord once, as first heard', () => {
    expect(table.chords.map(plainChord)).toEqual(['E7', 'A7', 'B7']);
  });

  it('gives one and the same note another role over each chord', () => {
    expect(table.rows.map(({ pitch, cells }) => [plainPitch(pitch), ...cells.map(({ role }) => role.label)])).toEqual([
      ['G#4', '3', '7', '6'],
      ['G4', '♭3', '♭7', '♭6'],
      ['F#4', '2', '6', '5'],
      ['F4', '♭9', '♭6', '♭5'],
    ]);
  });

  it('spells a note for each chord: the D flat of a blues in G is C sharp over D7', () => {
    const G = songKey({ letter: 'G', alter: 0 }, 'major');
    const over = ['I7', 'V7'].map((symbol) => present(readChord(symbol, G), symbol));
    const [row] = roleTable([{ ...itemAt(notesOfHole(A, 3), 0), midi: 73 }], over, G).rows;
    expect(row?.cells.map(({ role, pitch }) => `${plainPitch(pitch)} ${role.label}`)).toEqual(['Db5 ♭5', 'C#5 7']);
    expect(row && plainPitch(row.pitch)).toBe('Db5');
  });

  it('keeps chords apart that sound alike and are written otherwise', () => {
    expect(distinctChords([chord('I7'), chord('E7'), chord('I7')])).toHaveLength(2);
    expect(distinctChords([chord('E7'), chord('A7'), chord('E7')])).toHaveLength(2);
  });
});
