/** The components within a sentence that say something of the music: each attribute, each fact, and what a lesson's own settings do. */
import { describe, expect, test } from 'vitest';
import type { LessonInline } from '../../../src/course/course.ts';
import { loadFrom } from '../../../src/course/load.ts';
import { inlineText } from '../../../src/engrave/inline/words.ts';
import { itemAt, present } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';

/** What a lesson's components say; its front matter has these lines more. */
function read(text: string, frontMatter = 'harp: C\nposition: 2\n'): readonly LessonInline[] {
  const { byId } = loadFrom(
    filesInMemory({
      'course.yaml': 'title: A course\n',
      'lessons/one.mdx': `---\ntitle: One\n${frontMatter}---\n\nIt is ${text}\n`,
    }),
  );
  return present(byId.get('one'), 'the lesson').inlines;
}
const said = (text: string, frontMatter?: string): string =>
  read(text, frontMatter)
    .map(({ inline }) => (inline ? inlineText(inline) : 'none'))
    .join(' | ');

describe('each fact', () => {
  test.each([
    // A note: its name, its tab, its pitch, its role.
    ["<Note>-3'</Note>", 'draw 3 bent a half step'],
    ['<Note show="name">-3\'\'</Note>', 'draw 3 bent a whole step'],
    ["<Note show=\"name\">-3'''</Note>", 'draw 3 bent a step and a half'],
    ['<Note show="tab">-4</Note>', '-4'],
    ['<Note show="pitch">-3\'</Note>', 'B♭'],
    ['<Note show="role" over="I7">-3\'</Note>', 'flat third'],
    ['<Note over="I7">-3\'</Note>', 'flat third'],
    ['<Note over="I7">-2</Note>', 'root'],
    ['<Note show="name" over="I7">-2</Note>', 'draw 2'],
    // Several facts, in the order that is written, each once.
    ['<Note show="name pitch role tab" over="I7">-3\'</Note>', "draw 3 bent a half step (B♭, flat third, -3')"],
    ['<Note show="pitch, name, pitch">-2</Note>', 'G (draw 2)'],
    // Several notes.
    ['<Note show="pitch">-2 -3 -4 -5</Note>', 'G, B, D and F'],
    ['<Note show="pitch">-2 -3</Note>', 'G and B'],
    ['<Note show="pitch">(4 5 6)</Note>', 'C, E and G'],
    ['<Note>-3[vibrato]</Note>', 'draw 3'],
    // Over a chord, a pitch has the name that it has there.
    ['<Note show="pitch" over="V7/ii">-2</Note>', 'G'],
    ['<Note show="pitch" over="III7">-3\'</Note>', 'A♯'],
    ['<Note show="pitch" over="F#7">-3\'</Note>', 'A♯'],
    // A chord.
    ['<Chord>IV7</Chord>', 'C7'],
    ['<Chord>C7</Chord>', 'C7'],
    ['<Chord show="name">bVII</Chord>', 'F'],
    ['<Chord show="numeral">C7</Chord>', 'IV7'],
    ['<Chord show="numeral">bVII</Chord>', '♭VII'],
    ['<Chord show="tones">IV7</Chord>', 'C, E, G and B♭'],
    ['<Chord show="numeral name tones">i7</Chord>', 'i7 (Gm7, G, B♭, D and F)'],
    ['<Chord>C/E</Chord>', 'C/E'],
    // A key.
    ['<Key />', 'G'],
    ['<Key show="usual" />', 'G'],
    ['<Key show="full" />', 'G major'],
    ['<Key show="tonic" />', 'G'],
    ['<Key mode="minor" />', 'G minor'],
    ['<Key mode="dorian" show="full" />', 'G dorian'],
    ['<Key mode="minor" show="tonic" />', 'G'],
    // A harp.
    ['<Harp />', 'C harp'],
    ['<Harp show="harp" />', 'C harp'],
    ['<Harp show="label" />', 'C'],
    ['<Harp show="key" />', 'C'],
    ['<Harp harp="low F" />', 'low F harp'],
    ['<Harp harp="low F" show="label" />', 'low F'],
    ['<Harp harp="low F" show="key" />', 'low F'],
    ['<Harp tuning="natural-minor" />', 'natural minor harp in C'],
    ['<Harp tuning="natural-minor" show="label" />', 'C (natural minor)'],
    ['<Harp tuning="natural-minor" show="key" />', 'C'],
    ['<Harp article="no" />', 'C harp'],
    ['<Harp article />', 'a C harp'],
    // A position.
    ['<Position />', 'second position'],
    ['<Position show="number" />', 'second position'],
    ['<Position show="name" />', 'cross harp'],
    ['<Position show="both" />', 'second position (cross harp)'],
    ['<Position position="7" show="both" />', 'seventh position'],
    ['<Position position="7" show="name" />', 'seventh position'],
  ])('%s', (text, wanted) => {
    expect(said(text)).toBe(wanted);
  });
});

test.each([
  ['C', 'a C harp'], ['G', 'a G harp'], ['D', 'a D harp'], ['A', 'an A harp'], ['E', 'an E harp'], ['B', 'a B harp'],
  ['F#', 'an F♯ harp'], ['F', 'an F harp'], ['Bb', 'a B♭ harp'], ['Eb', 'an E♭ harp'], ['Ab', 'an A♭ harp'], ['Db', 'a D♭ harp'],
  ['low F', 'a low F harp'], ['high A', 'a high A harp'],
])('the article of a harp in %s', (harp, wanted) => {
  expect(said(`<Harp harp="${harp}" article="yes" />`)).toBe(wanted);
}); // biome-ignore format: a table

test.each([
  ['<Key article="yes" /> blues', 'a G'],
  ['<Key harp="A" article="yes" /> blues', 'an E'],
  ['<Key harp="A" mode="minor" article="yes" />', 'an E minor'],
  ['<Chord article="yes">I7</Chord>', 'a G7'],
  ['<Chord harp="D" article="yes">I7</Chord>', 'an A7'],
  ['<Chord show="numeral" article="yes">ii7</Chord>', 'a ii7'],
  ['<Chord show="numeral" article="yes">IV7</Chord>', 'a IV7'],
  ['<Note article="yes">-3</Note>', 'a draw 3'],
  ['<Note article="yes">6o</Note>', 'an overblow 6'],
  ['<Note show="tab" article="yes">6o</Note>', 'an 6o'],
  ['<Note show="pitch" article="yes">-3q</Note>', 'a B↓'],
  ['<Note over="I7" article="yes">-3\'</Note>', 'a flat third'],
  ['<Position article="yes" />', 'a second position'],
  ['<Position position="11" article="yes" />', 'an eleventh position'],
])('the article of %s', (text, wanted) => {
  expect(said(text)).toBe(wanted);
});

describe('each attribute of them all', () => {
  const tags = (attributes: string): string =>
    `<Note ${attributes} show="pitch">-3</Note> <Chord ${attributes}>I</Chord> <Key ${attributes} /> <Harp ${attributes} /> <Position ${attributes} />`;
  test.each([
    ['', 'B | G | G | C harp | second position'],
    ['harp="A"', 'G♯ | E | E | A harp | second position'],
    ['harp="low F"', 'E | C | C | low F harp | second position'],
    ['position="1"', 'B | C | C | C harp | first position'],
    ['tuning="natural-minor"', 'B♭ | G | G minor | natural minor harp in C | second position'],
    ['mode="minor"', 'B | G | G minor | C harp | second position'],
    ['harp="D" position="3" mode="dorian"', 'C♯ | E | E dorian | D harp | third position'],
    ['capital="yes"', 'B | G | G | C harp | Second position'],
    ['capital', 'B | G | G | C harp | Second position'],
  ])('%s', (attributes, wanted) => {
    expect(said(tags(attributes))).toBe(wanted);
  });

  test('follow says whether it is said again for another harp', () => {
    for (const [attributes, wanted] of [
      ['', true],
      ['follow="yes"', true],
      ['follow', true],
      ['follow="no"', false],
    ] as const)
      expect(read(tags(attributes)).map(({ follows }) => follows)).toEqual([wanted, wanted, wanted, wanted, wanted]);
  });

  test('a component is where it is in the file, also over several lines', () => {
    const [one, two] = read('<Key\n  show="full"\n/> and <Harp />');
    expect(one?.range).toEqual({ start: { line: 7, column: 7 }, end: { line: 9, column: 3 } });
    expect(two?.range).toEqual({ start: { line: 9, column: 8 }, end: { line: 9, column: 16 } });
  });
});

describe('what a lesson says itself', () => {
  const block = (head: string) => `\n\n\`\`\`tab\n${head}slot: 1/1\n-4\n\`\`\``;
  test('its harp, tuning, position and key hold for its sentences', () => {
    expect(said('<Key /> <Harp />', 'harp: low F\nposition: 3\n')).toBe('G minor | low F harp');
    expect(said('<Key />', 'harp: C\nposition: 3\nkey: D minor\n')).toBe('D minor');
  });
  test('the mode is that of its blocks in this position, if they agree', () => {
    expect(said(`<Key />${block('chords: i7\n')}`)).toBe('G minor');
    expect(said(`<Key />${block('chords: i7\n')}${block('chords: I7\n')}`)).toBe('G');
    expect(said(`<Key position="1" />${block('chords: i7\n')}`)).toBe('C');
    expect(said(`<Key mode="major" />${block('chords: i7\n')}`)).toBe('G');
  });
  test('what is wrong with one leaves the others as they are', () => {
    const [wrong, right] = read('<Key show="nothing" /> <Key />');
    expect(wrong?.inline).toBeUndefined();
    expect(right?.inline?.kind).toBe('key');
    expect(read('<Note /> <Chord>H</Chord> <Note>hello</Note>').map(({ inline }) => inline)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
  test('an attribute may be in braces', () => {
    const { inline } = itemAt(read('<Position position={3} show={"both"} />'), 0);
    expect(inline && inlineText(inline)).toBe('third position (slant harp)');
  });
  test('notes of a block quote may be on several lines', () => {
    expect(said('x\n\n> It is <Note show="pitch">-2\n> -3</Note>')).toBe('G and B');
  });
});
