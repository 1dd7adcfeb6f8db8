import { describe, expect, it } from 'vitest';
import { readArguments } from '../../../src/command/arguments.ts';
import { command } from '../../../src/command/block/explain.ts';
import { UsageError } from '../../../src/command/command.ts';
import { courseOf } from '../../course/some-course.ts';

function explain(...typed: string[]): string {
  let text = '';
  const terminal = {
    cwd: '/',
    out: (more: string) => {
      text += more;
    },
    err: () => undefined,
    progress: () => undefined,
  };
  const input = readArguments(command, typed);
  if (input === 'help') throw new Error('help');
  expect(command.run(input, terminal)).toBe(0);
  return text;
}
const data = (...typed: string[]) =>
  JSON.parse(explain(...typed, '--json')) as {
    harp: string;
    key: string;
    notes: readonly {
      note: string;
      pitch: string;
      midi: number;
      frequency: number;
      cents: number;
      degree: string;
      roles: readonly { chord: string; numeral: string; role: string; words: string }[];
    }[];
  };

describe('reedway explain', () => {
  it('prints pitch, frequency, degree and the role over each chord of a form', () => {
    const { harp, key, notes } = data("-3'", '--harp', 'A', '--position', '2', '--form', 'twelve-bar');
    expect([harp, key]).toEqual(['A', 'E major']);
    expect(notes).toEqual([
      {
        note: "-3'", hole: 3, breath: 'draw', bend: 1, over: false, slide: false,
        pitch: 'G4', midi: 67, frequency: 392, cents: 0, degree: '♭3',
        roles: [
          { chord: 'E7', numeral: 'I7', role: '♭3', words: 'the flat third' },
          { chord: 'A7', numeral: 'IV7', role: '♭7', words: 'the flat seventh' },
          { chord: 'B7', numeral: 'V7', role: '♭6', words: 'the flat sixth' },
        ],
      },
    ]); // biome-ignore format: as it is read
  });

  it('takes several notes, draw holes among the options, and splits', () => {
    expect(
      data('-2', '--harp', 'low F', '4', '-(1 4)', '6o').notes.map(({ note, pitch }) => `${note} ${pitch}`),
    ).toEqual(['-2 C4', '4 F4', '-1 G3', '-4 G4', '6o Eb5']);
  });

  it('follows temperament and concert pitch', () => {
    const [note] = data('2', '--temperament', 'just', '--concert-a', '442').notes;
    expect(note?.cents).toBe(-13.69);
    expect(note?.frequency).toBeCloseTo(442 * 2 ** (-5 / 12) * 2 ** (-13.69 / 1200), 1);
  });

  it('prints a table to read', () => {
    expect(explain('-3', "-3'", '--harp', 'A', '--position', '2', '--chords', 'I7 | IV7')).toMatchInlineSnapshot(`
      "A harp, Richter, second position, E major, equal temperament, A at 440 Hz

                                   pitch  MIDI  Hz      cents  degree  over I7 E7         over IV7 A7
      -3   draw 3                  G#4    68    415.30  0      3       3 the third        7 the major seventh
      -3'  draw 3, half-step bend  G4     67    392.00  0      ♭3      ♭3 the flat third  ♭7 the flat seventh
      "
    `);
  });

  it('takes settings and tuning of the reeds from a course', () => {
    const dir = courseOf({
      'course.yaml': 'title: A course\nharp: A\nposition: 2\nconcert-a: 442\ntemperament: just\n',
    });
    const [about] = explain('4', '--course', dir).split('\n');
    expect(about).toContain('A harp, Richter');
    expect(about).toContain('just temperament, A at 442 Hz');
    const [other] = explain('4', '--course', dir, '--concert-a', '440', '--temperament', 'equal').split('\n');
    expect(other).toContain('equal temperament, A at 440 Hz');
  });

  it.each([
    [['11'], 'There is no hole 11 on a harp of 10 holes.'],
    [["-2'''", 'x'], 'bends at most two half steps'],
    [['='], '“=” is no note.'],
    [['.'], '“.” names no note.'],
    [['4', '--harp', 'H'], '“H” is no harp.'],
    [['4', '--form', 'a', '--chords', 'I'], 'Keep one of them.'],
    [['4', '--temperament', 'meantone'], 'There is no temperament “meantone”.'],
    [['4', '--concert-a', '44'], 'Concert A is a number'],
    [['4', '--hrap', 'A'], 'Did you mean --harp?'],
    [[], 'NOTE is missing'],
  ])('refuses %j', (typed, message) => {
    expect(() => explain(...typed)).toThrow(UsageError);
    expect(() => explain(...typed)).toThrow(message);
  });
});
