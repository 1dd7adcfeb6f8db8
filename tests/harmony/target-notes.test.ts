/** The tones of a chord on a harp, and the ways a line comes into each. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { songKey } from '../../src/harmony/key.ts';
import { readChord } from '../../src/harmony/symbol.ts';
import { APPROACHES, type NoteRange, type TargetNote, targetNotes } from '../../src/harmony/target-notes.ts';
import { readHarp } from '../../src/instrument/harp.ts';
import { plainPitch } from '../../src/instrument/pitch.ts';
import { notesOf, type Playable, tabOf } from '../../src/instrument/playable.ts';
import { TUNINGS } from '../../src/instrument/tuning.ts';
import { present, valueAt } from '../../src/values/checked.ts';

const KEY = songKey({ letter: 'C', alter: 0 }, 'major');
const harpOf = (tuning: string) =>
  present(readHarp('C', valueAt(new Map(TUNINGS.map((one) => [one.id, one])), tuning)), tuning);
const chordOf = (symbol: string) => present(readChord(symbol, KEY), symbol);

interface Asked extends Partial<NoteRange> {
  readonly on?: string;
}

const targets = (symbol: string, { on = 'richter', ...range }: Asked = {}): readonly TargetNote[] =>
  targetNotes(harpOf(on), chordOf(symbol), KEY, { holes: [1, 10], bends: true, overbends: false, ...range });

const tabs = (found: readonly TargetNote[]): string => found.map(({ note }) => tabOf(note)).join(' ');

/** `bend -3 (4)`: how, from where, and the effort of it. */
const ways = (tab: string, found: readonly TargetNote[]): string[] =>
  present(
    found.find(({ note }) => tabOf(note) === tab),
    tab,
  ).approaches.map(({ kind, from, effort }) => `${kind} ${tabOf(from)} (${effort})`);

describe('the target notes of a chord', () => {
  test('are its tones from the lowest pitch up; of one pitch the lower hole is first', () => {
    const found = targets('C7', { holes: [1, 4] });
    expect(found.map(({ note, role, pitch }) => `${tabOf(note)} ${role.label} ${plainPitch(pitch)}`)).toEqual([
      '1 R C4',
      '2 3 E4',
      '-2 5 G4',
      '3 5 G4',
      "-3' ♭7 Bb4",
      '4 R C5',
    ]);
  });
  test('are spelled and named for the chord, not for the key', () => {
    const [third] = targets('E7', { holes: [3, 3] });
    expect(third && [tabOf(third.note), third.role.label, plainPitch(third.pitch)]).toEqual(["-3'''", '3', 'G#4']);
  });
  test('are in the holes that are asked for, the first and the last of them too', () => {
    expect(tabs(targets('C', { holes: [4, 6] }))).toBe('4 5 6');
    expect(tabs(targets('C', { holes: [5, 5] }))).toBe('5');
  });
  test('are bends and overbends only where these are asked for', () => {
    const range = { holes: [3, 6] as const };
    expect(tabs(targets('Bb', { ...range, bends: false }))).toBe('-4 -5');
    expect(tabs(targets('Bb', { ...range, bends: true }))).toBe("-3' -4 -5");
    expect(tabs(targets('Bb', { ...range, bends: false, overbends: true }))).toBe('-4 -5 6o');
  });
  test('are with the slide pressed plain reeds alone', () => {
    expect(tabs(targets('Eb', { on: 'solo-chromatic', holes: [1, 3] }))).toBe('-1* 3 -3*');
    // The same harp without valves bends, and has overbends.
    const { valves: _, ...tuning } = harpOf('solo-chromatic').tuning;
    const range = { holes: [1, 4], bends: true, overbends: true } as const;
    const found = targetNotes({ ...harpOf('solo-chromatic'), tuning }, chordOf('Db7'), KEY, range);
    expect(tabs(found)).toBe("-1' 1* -2 2* -3' 3* -4 -4o 4*");
  });
});

describe('a line comes into a target note', () => {
  test('down a bend, along the breath, from the reed above, or by letting a deeper bend go; the easiest is first', () => {
    expect(ways("-3'", targets('C7', { holes: [1, 4] }))).toEqual([
      'bend -3 (4)',
      'breath -2 (5)',
      'breath -4 (5)',
      'above 4 (6)',
      "release -3'' (10)",
    ]);
  });
  test('up a half step on its own reed, and no further', () => {
    const up = ways('-3', targets('G', { holes: [3, 3] }));
    expect(up).toEqual(["release -3' (4)"]);
  });
  test('down from its reed or from the bend before it, whichever way that is', () => {
    expect(ways("-3'''", targets('Ab', { holes: [3, 3] }))).toEqual(['bend -3 (8)', "bend -3'' (14)"]);
  });
  test('from a plain reed a half step or a whole step above, wherever it is', () => {
    // A4 and G4 above F4, and F#4 on no plain reed.
    expect(ways("-2''", targets('F', { holes: [1, 4] }))).toEqual([
      'bend -2 (6)',
      'breath -1 (7)',
      'breath -3 (7)',
      'above 3 (8)',
      "bend -2' (10)",
    ]);
  });
  test('from no bend of another reed', () => {
    const from = targets('C', { holes: [1, 10] }).flatMap(({ approaches }) =>
      approaches.filter(({ kind }) => kind === 'above' || kind === 'breath').map((way) => way.from),
    );
    expect(from.filter(({ bend, over }) => bend > 0 || over)).toEqual([]);
    expect(from.length).toBeGreaterThan(20);
  });
  test('that is an overbend: from the plain reed under it as from one beside it', () => {
    expect(ways('6o', targets('Bb', { holes: [5, 7], overbends: true }))).toEqual([
      'breath 6 (20)',
      'above 7 (21)',
      'breath 5 (21)',
      'above -7 (22)',
    ]);
  });
  test('with the slide as it is, or from above with a turn of it', () => {
    const found = targets('C#m', { on: 'solo-chromatic', holes: [1, 3] });
    expect(ways('1', targets('C', { on: 'solo-chromatic', holes: [1, 2] }))).toContain('above 1* (1)');
    expect(ways('1*', found)).toEqual(['above -1 (2)', 'above -1* (3)', 'breath 2* (3)']);
  });
});

describe('of any chord on any harp', () => {
  const asked = fc.record({
    on: fc.constantFrom(...TUNINGS.map(({ id }) => id)),
    symbol: fc.constantFrom('C', 'Bb7', 'Am7', 'F#dim7', 'Ebmaj7', 'G7sus4', 'Ab6', 'D7#9'),
    bends: fc.boolean(),
    overbends: fc.boolean(),
    holes: fc
      .tuple(fc.integer({ min: 1, max: 10 }), fc.integer({ min: 0, max: 5 }))
      .map(([first, more]): [number, number] => [first, first + more]),
  });

  test('a range that has more in it has all the target notes of a smaller one, with the same ways and more', () => {
    fc.assert(
      fc.property(asked, ({ symbol, ...range }) => {
        const some = targets(symbol, range);
        const all = new Map(
          targets(symbol, { on: range.on, holes: [1, 99], bends: true, overbends: true }).map((one) => [
            tabOf(one.note),
            one,
          ]),
        );
        for (const { note, approaches } of some)
          expect(valueAt(all, tabOf(note)).approaches).toEqual(expect.arrayContaining([...approaches]));
      }),
    );
  });
  test('each way is by one reed or from a plain one, and none is harder than the next', () => {
    fc.assert(
      fc.property(asked, ({ symbol, ...range }) => {
        for (const { note, approaches } of targets(symbol, range)) {
          for (const { kind, from } of approaches) expect(isWay(kind, from, note), `${kind} ${tabOf(from)}`).toBe(true);
          const order = approaches.map(({ effort, kind }) => 10 * effort + APPROACHES.indexOf(kind));
          expect(order).toEqual(order.toSorted((a, b) => a - b));
          expect(new Set(approaches.map(({ from }) => tabOf(from))).size).toBe(approaches.length);
        }
      }),
    );
  });
  test('every note of the range that is a tone of the chord is there once', () => {
    fc.assert(
      fc.property(asked, ({ on, symbol }) => {
        const chord = chordOf(symbol);
        const root = present(targets(symbol, { on }).find(({ role }) => role.label === 'R')?.note.midi, 'the root');
        const tones = new Set(chord.tones.map(({ semitones }) => (root + semitones) % 12));
        const plain = notesOf(harpOf(on)).filter(({ midi, bend, over }) => bend === 0 && !over && tones.has(midi % 12));
        const found = targets(symbol, { on, holes: [1, 99], bends: false });
        expect(found.map(({ note }) => tabOf(note)).toSorted()).toEqual(plain.map(tabOf).toSorted());
      }),
    );
  });
});

/** What a way into a note is, by the sounds of it. */
function isWay(kind: string, from: Playable, to: Playable): boolean {
  const [down, holes] = [from.midi - to.midi, Math.abs(from.hole - to.hole)];
  const oneReed = holes === 0 && from.breath === to.breath && from.slide === to.slide;
  const isPlain = from.bend === 0 && !from.over;
  if (kind === 'release') return oneReed && down === -1 && from.bend > 0;
  if (kind === 'bend') return oneReed && to.bend > 0 && (isPlain || down === 1);
  if (kind === 'above') return isPlain && (down === 1 || down === 2) && !(oneReed && to.bend > 0);
  return isPlain && holes <= 1 && from.breath === to.breath && from.slide === to.slide;
}
