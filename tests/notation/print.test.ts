/** How scores are written, example by example; that they read back as they were is a law (laws.test.ts). */
import { describe, expect, test } from 'vitest';
import { printScore } from '../../src/notation/print/print.ts';
import { readBlock } from '../../src/notation/read.ts';
import { itemAt } from '../../src/values/checked.ts';

/** What is printed of a block: the settings and the music. */
function printed(text: string): readonly [settings: string, music: string] {
  const { score, diagnostics } = readBlock(text);
  if (!score) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  const parts = printScore(score).trimEnd().split('\n\n');
  return [itemAt(parts, 0), itemAt(parts, 1)];
}
const settingsOf = (text: string): string => printed(text)[0];
/** Music in quarters, unless it says otherwise. */
const musicOf = (text: string): string => printed(`slot: 1/4\n${text}`)[1];

describe('the settings of a block are printed', () => {
  test('all of them, those that were not written too', () => {
    expect(settingsOf('id: x\ntitle: A tune\nposition: 2\nslot: 1/4\npickup: 2\n-2 4 | -2 =')).toBe(
      [
        'id: x',
        'title: A tune',
        'harp: C',
        'tuning: richter',
        'position: 2',
        'meter: 4/4',
        'tempo: 80',
        'feel: straight',
        'slot: 1/4',
        'pickup: 2',
        'mouth: lips',
      ].join('\n'),
    );
  });
  test.each([
    ['form: twelve-bar bars 1-2', 'form: twelve-bar bars 1-2', '1 =7 | 1 =7'],
    ['chords: I7 = IV7 = | V7', 'chords: I7 IV7 | V7', '1 =7 | 1 =7'],
    ['chords: I = = IV', 'chords: I = = IV', '1 =7'],
    ['meter: 3/4\nchords: I IV V', 'chords: I IV V', '1 =5'],
  ])('%s', (written, line, music) => {
    const lines = settingsOf(`${written}\n${music}`).split('\n');
    expect(lines).toContain(line);
    expect(lines.filter((other) => /^(?:form|chords|pickup|id|title):/.test(other))).toEqual([line]);
  });
});

describe('music is printed', () => {
  test('four bars to a line, and from each part on a line of its own', () => {
    expect(musicOf('4 =3 | 4 =3 | 4 =3 | 4 =3 | 4 =3')).toBe('4 =3 | 4 =3 | 4 =3 | 4 =3 |\n4 =3 |');
    expect(musicOf('part: A\n4 =3 || 4 =3 |\npart: B\n4 =3 |]')).toBe('part: A\n4 =3 || 4 =3 |\npart: B\n4 =3 |]');
  });
  test('with its repeats and endings', () => {
    expect(musicOf('|: 4 =3 |1 5 =3 :|2 6 =3 | 6 =3 ||')).toBe('|: 4 =3 |1 5 =3 :| |2 6 =3 | 6 =3 ||');
    expect(musicOf('|1 4 =3 :|2 4 =3 |]')).toBe('|1 4 =3 :| |2 4 =3 |]');
    expect(musicOf('4 =3 |: 4 =3 :|: 4 =3 :|')).toBe('4 =3 |: 4 =3 :| |: 4 =3 :|');
  });
  test('with its jumps, those at one plain line in one list', () => {
    expect(musicOf('4 =3 |segno 4 =3 |TOCODA 4 =3 |ds |coda 4 =3 |]')).toBe(
      '4 =3 |segno 4 =3 |to-coda 4 =3 |D.S.,coda 4 =3 |]',
    );
    expect(musicOf('|segno |: 4 =3 :|x3 |fine 5 =3 || 4 =3 |]ds')).toBe('|:segno 4 =3 :|x3,fine 5 =3 || 4 =3 |]D.S.');
    expect(musicOf('4 =3 |1 5 =3 :|segno |2 4 =3 |D.S.')).toBe('4 =3 |1 5 =3 :| |segno,2 4 =3 |D.S.');
    expect(musicOf('4 =3 |fine |: 5 =3 :|D.C.')).toBe('4 =3 |fine |: 5 =3 :|D.C.');
  });
  test('with the sign of a repeated bar, and a chord of its own before it', () => {
    expect(musicOf('4 =3 | % |fine % | "IV" % |D.C.')).toBe('4 =3 | % |fine % | "IV" % |D.C.');
    expect(musicOf('4 = "I" 5 = | % | % "V" | 4 =3')).toBe('4 = "I" 5 = | % | % | "V" 4 =3 |');
  });
  test('with a rest of several bars in one place', () => {
    expect(musicOf('4 =3 | "IV" .x3 |fine 4 =3 | .x2 |D.C.')).toBe('4 =3 | "IV" .x3 |fine\n4 =3 | .x2 |D.C.');
  });
  test('with groups only where notes share a slot', () => {
    expect(musicOf('{4 5}2 {4 = 5} 4')).toBe('4 5 {4 = 5} 4 |');
    expect(musicOf('{4. 4}2 4 4')).toBe('{4 . 4}2 4 4 |');
    expect(musicOf('{4 5 6}4')).toBe('{4 5 6}4 |');
  });
  test('in groups of a slot each where one group would be too fine to read', () => {
    expect(musicOf(`{${'4 '.repeat(12)}}4`)).toBe('{4 4 4} {4 4 4} {4 4 4} {4 4 4} |');
    expect(printed('slot: 1/8\n{4 5 6}5 4 4 4')[1]).toBe('4 {=2 5 =4 6 =4}4 4 4 4 |');
  });
  test('in the slot it is written in, if no group has more events than can be read', () => {
    const sixteen = `{${Array.from({ length: 16 }, (_, i) => (i % 2 ? 5 : 4)).join(' ')}}`;
    expect(printed(`slot: 1/1\n${sixteen}`)[1]).toBe(`${sixteen} |`);
  });
  test('with the embouchure where it changes, and the marks and glides of notes', () => {
    expect(musicOf('@tongue (1 4) 4 @lips 4 -4[shake 5]')).toBe('@tongue (1 4) 4 @lips 4 -4[shake 5] |');
    expect(musicOf("-3'[dip accent]> -3 -4 .")).toBe("-3'[dip accent]> -3 -4 . |");
    expect(musicOf('4 => 5 .')).toBe('4 => 5 . |');
  });
  test('each ending with the embouchure and the chord that the first one began with', () => {
    expect(musicOf('|: "C" 4 =3 |1 "F" @tongue 4 =3 :|2 4 =3 |]')).toBe(
      '|: "C" 4 =3 |1 "F" @tongue 4 =3 :| |2 4 =3 |]',
    );
    expect(musicOf('|: "C" 4 =3 |1 "F" @tongue 4 =3 :|2 "F" @tongue 4 =3 |]')).toBe(
      '|: "C" 4 =3 |1 "F" @tongue 4 =3 :| |2 "F" @tongue 4 =3 |]',
    );
  });
  test('with a syllable or its sign for each note of a line', () => {
    expect(musicOf('4 5 6 7 | 4 = 5 . |]\nwords: One two-three _ * four')).toBe(
      '4 5 6 7 | 4 = 5 . |]\nwords: One two- three _ * four',
    );
    expect(musicOf('4 5 6 7\nwords: One')).toBe('4 5 6 7 |\nwords: One * * *');
    expect(musicOf('4 =3 | =2 5 6\nwords: One two')).toBe('4 =3 | =2 5 6 |\nwords: One two *');
  });
  test('with its verses in order, numbered where one is left out', () => {
    expect(musicOf('4 5 6 7 |]\nwords 2: one two three four\nwords 1: a * * *\nsyllables: ta ka-ta _')).toBe(
      '4 5 6 7 |]\nsyllables: ta ka- ta _\nwords: a * * *\nwords: one two three four',
    );
    expect(musicOf('4 5 6 7 |]\nwords: * * * *\nwords: a\nwords 4: b')).toBe(
      '4 5 6 7 |]\nwords 2: a * * *\nwords 4: b * * *',
    );
  });
  test('with the words of an ending in the line of their verse if there is one, else in the first', () => {
    expect(musicOf('|: 4 5 6 7 |1 4 =3 :|2 5 =3 |]\nwords: a b c d e f')).toBe(
      '|: 4 5 6 7 |1 4 =3 :| |2 5 =3 |]\nwords: a b c d e f',
    );
    expect(musicOf('|: 4 5 6 7 |1 4 =3 :|2 5 =3 |]\nwords: a b c d e f\nwords: g h i j')).toBe(
      '|: 4 5 6 7 |1 4 =3 :| |2 5 =3 |]\nwords: a b c d e *\nwords: g h i j * f',
    );
  });
});

describe('chords are printed', () => {
  test('where they change, not in every bar', () => {
    expect(musicOf('"C7" 4 =3 | "C7" 4 =3 | "F7" 4 =3 | 4 = "C7" 4 =')).toBe(
      '"C7" 4 =3 | 4 =3 | "F7" 4 =3 | 4 = "C7" 4 = |',
    );
  });
  test('where they differ from those of the progression', () => {
    expect(musicOf('chords: I | IV\n"I" 4 =3 | 4 =3')).toBe('4 =3 | 4 =3 |');
    expect(musicOf('chords: I | IV\n"IV" 4 =3 | 4 = "V7" 4 =')).toBe('"IV" 4 =3 | 4 = "V7" 4 = |');
    expect(musicOf('chords: I7 IV7\n4 =3')).toBe('4 =3 |');
    expect(musicOf('chords: I7 I7 | IV7\n4 =3 | 4 =3')).toBe('4 =3 | 4 =3 |');
    expect(musicOf('chords: I7 IV7\n4 "IV7" 4 "V7" =2')).toBe('4 "IV7" 4 "V7" =2 |');
    expect(musicOf('chords: I\n"C" 4 =3')).toBe('"C" 4 =3 |');
    expect(musicOf('chords: I IV\n"V" 4 4 "V" 4 4')).toBe('"V" 4 4 4 4 |');
  });
  test('again where the progression would change them in the bar and the music does not', () => {
    expect(musicOf('chords: I IV\n4 4 "I" 4 4')).toBe('"I" 4 4 4 4 |');
    expect(musicOf('chords: I IV I\nmeter: 3/4\n4 4 "IV" 4')).toBe('4 "IV" 4 4 |');
  });
  test('within the note over which they change', () => {
    expect(musicOf('"C" 4 = "F" =2')).toBe('"C" 4 = "F" =2 |');
  });
});
