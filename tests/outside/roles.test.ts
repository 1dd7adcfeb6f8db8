/** Roles in cross position: what every player is taught. Common practice, no source, unless a check says otherwise. */
import { describe, expect, it } from 'vitest';
import { FORMS, readForm } from '../../src/harmony/form.ts';
import { songKey } from '../../src/harmony/key.ts';
import { roleOf } from '../../src/harmony/role.ts';
import { roleTable } from '../../src/harmony/role-table.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { type Harp, readHarp, tonicInPosition } from '../../src/instrument/harp.ts';
import { notesOf, tabOf } from '../../src/instrument/playable.ts';
import { RICHTER } from '../../src/instrument/tuning.ts';
import { present } from '../../src/values/checked.ts';

const KEYS = ['G', 'Ab', 'A', 'Bb', 'B', 'C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'low F', 'high G'] as const;
const harp = (name: string): Harp => present(readHarp(name, RICHTER), 'the harp');

function rolesOf(key: string, tab: string): string[] {
  const on = harp(key);
  const song = songKey(tonicInPosition(on.key, 2), 'major');
  const note = notesOf(on).find((each) => tabOf(each) === tab);
  if (!note) throw new Error(`no ${tab}`);
  const chords = ['I7', 'IV7', 'V7'].map((symbol) => {
    const chord = readChord(symbol, song);
    if (!chord) throw new Error(symbol);
    return chord;
  });
  return (roleTable([note], chords, song).rows[0]?.cells ?? []).map(({ role }) => role.label);
}

describe.each(KEYS)('cross position on a harp in %s', (key) => {
  // Over I7, IV7 and V7. Draw 3 and its bends are the facts of the trade; the other rows are worked out from the chords.
  it.each([
    ['-2', 'R 5 4'], ['3', 'R 5 4'], ['6', 'R 5 4'],
    ["-3'''", '♭9 ♭6 ♭5'],
    ["-3''", '2 6 5'], ['-6', '2 6 5'],
    ["-3'", '♭3 ♭7 ♭6'], ["10''", '♭3 ♭7 ♭6'], ['6o', '♭3 ♭7 ♭6'],
    ['-3', '3 7 6'], ['-7', '3 7 6'],
    ['4', '4 R ♭7'], ['1', '4 R ♭7'],
    ["-4'", '♭5 ♭9 7'], ["-1'", '♭5 ♭9 7'],
    ['-4', '5 2 R'], ['-1', '5 2 R'],
    ["8'", '♭6 ♭3 ♭9'], ['4o', '♭6 ♭3 ♭9'],
    ['2', '6 3 2'], ['5', '6 3 2'],
    ["-2''", '♭7 4 ♭3'], ['-5', '♭7 4 ♭3'],
    ["-2'", '7 ♭5 3'], ["9'", '7 ♭5 3'], ['5o', '7 ♭5 3'],
  ])('%s is %s', (tab, labels) => {
    expect(rolesOf(key, tab).join(' ')).toBe(labels);
  }); // biome-ignore format: a table

  it('finds the third of V nowhere but in the bend of draw 2, the bend of blow 9 and the overblow of 5', () => {
    const on = harp(key);
    const song = songKey(tonicInPosition(on.key, 2), 'major');
    const five = readChord('V7', song);
    if (!five) throw new Error('V7');
    const thirds = notesOf(on)
      .filter((note) => roleOf(note.midi, five, song).label === '3')
      .map(tabOf);
    expect(thirds.sort()).toEqual(["-2'", "9'", '5o'].sort());
  });
});

describe('the forms, chord by chord', () => {
  const bars = (id: string): string => {
    const read = readForm(FORMS.find((form) => form.id === id)?.bars ?? '');
    return 'bars' in read ? read.bars.map((bar) => bar.map(({ symbol }) => symbol).join('+')).join(' ') : '';
  };
  // The articles give I, IV and V; that a blues has dominant sevenths on all three is common practice, no source.
  const PUBLISHED: Readonly<Record<string, string>> = {
    // Encyclopaedia article “Twelve-bar blues”, which cites Benward & Saker 2003, p. 186.
    'twelve-bar-plain': 'I7 I7 I7 I7 IV7 IV7 I7 I7 V7 V7 I7 I7',
    'twelve-bar': 'I7 I7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 I7',
    'quick-change': 'I7 IV7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 I7',
    // Encyclopaedia article “Eight-bar blues”, both tables.
    'eight-bar': 'I7 V7 IV7 IV7 I7 V7+IV7 I7 V7',
    'eight-bar-halves': 'I7 I7 IV7 IV7 I7 V7 I7+IV7 I7+V7',
    // Encyclopaedia article “Sixteen-bar blues”: the first four bars of the twelve doubled.
    'sixteen-bar': 'I7 I7 I7 I7 I7 I7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 I7',
    // The chord on V in the last bar: common practice, no source.
    'twelve-bar-turnaround': 'I7 I7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 V7',
    'quick-change-turnaround': 'I7 IV7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 V7',
    // From memory, with the minor sevenths of common practice.
    'minor-twelve-bar': 'i7 i7 i7 i7 iv7 iv7 i7 i7 bVI7 V7 i7 i7',
  };
  it('are all here', () => {
    expect(FORMS.map(({ id }) => id).sort()).toEqual(Object.keys(PUBLISHED).sort());
  });
  it.each(Object.entries(PUBLISHED))('%s is as published', (id, chords) => {
    expect(bars(id)).toBe(chords);
  });
});
