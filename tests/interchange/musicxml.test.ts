/** What of a score is where in MusicXML. The schema and other programs are asked in tests/outside/exchange. */
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { musicXmlOf } from '../../src/interchange/musicxml/document.ts';
import { scoreOf } from '../engrave/pictures.ts';

const { DOMParser } = new JSDOM('').window;

function documentOf(text: string, title = 'A block'): Document {
  const read = new DOMParser().parseFromString(musicXmlOf(scoreOf(text), { title }), 'text/xml');
  expect(read.querySelector('parsererror')).toBeNull();
  return read;
}

const texts = (root: ParentNode, selector: string): string[] =>
  [...root.querySelectorAll(selector)].map((element) => element.textContent ?? '');
const attributes = (root: ParentNode, selector: string, name: string): string[] =>
  [...root.querySelectorAll(selector)].map((element) => element.getAttribute(name) ?? '');

test('the file says what it is, whose it is, and what plays', () => {
  const text = musicXmlOf(scoreOf('harp: low F\nposition: 2\nslot: 1/4\n4 4 4 4'), {
    title: 'Tea & "biscuits" <1>',
    lesson: 'First',
    course: 'A course',
    teacher: 'T',
    licence: 'All rights reserved',
    address: 'https://example.org/',
  });
  expect(text).toMatch('<work-title>Tea &amp; &quot;biscuits&quot; &lt;1&gt;</work-title>');
  expect(text).toMatch('<source>First, A course, https://example.org/</source>');
  expect(text).toMatch('<rights>All rights reserved</rights>');
  expect(text).toMatch('<part-name>low F harp, second position</part-name>');
});

describe('time', () => {
  test('is exact, with tuplets, ties and dots as they are written', () => {
    const read = documentOf('slot: 1/8\n{4 5 6} 4 =2 5 . . . | 4 = = = = = = =');
    expect(texts(read, 'divisions')).toEqual(['6']);
    const measure = read.querySelectorAll('measure').item(0);
    expect(texts(measure, 'duration').reduce((sum, value) => sum + Number(value), 0)).toBe(24);
    expect(attributes(measure, 'tuplet', 'type')).toEqual(['start', 'stop']);
    expect(texts(measure, 'actual-notes')).toEqual(['3', '3', '3']);
    expect(texts(read.querySelectorAll('measure').item(1), 'type')).toEqual(['whole']);
  });
  test('has meter, key, tempo and swing', () => {
    const read = documentOf('harp: A\nposition: 2\nfeel: shuffle\ntempo: 92\nslot: 1/4\n4 4 4 4');
    expect(texts(read, 'key > *')).toEqual(['4', 'major']);
    expect(texts(read, 'time > *')).toEqual(['4', '4']);
    expect(texts(read, 'swing > *')).toEqual(['2', '1', 'eighth']);
    expect(texts(read, 'words')).toContain('shuffle');
    expect(attributes(read, 'direction > sound', 'tempo')).toEqual(['92']);
    expect(documentOf('slot: 1/4\n4 4 4 4').querySelector('swing')).toBeNull();
  });
  test('counts the tempo of compound time in dotted quarters', () => {
    const read = documentOf('meter: 12/8\ntempo: 60\nslot: 3/8\n4 4 4 4');
    expect(read.querySelector('beat-unit-dot')).not.toBeNull();
    expect(attributes(read, 'direction > sound', 'tempo')).toEqual(['90']);
  });
  test('has a bar of rest as one rest, and one that is left empty too', () => {
    const read = documentOf('slot: 1/4\n4 4 4 4 | . . . . |]');
    expect(attributes(read.querySelectorAll('measure').item(1), 'rest', 'measure')).toEqual(['yes']);
  });
});

test('repeats go back to a sign that is written, and endings open and close', () => {
  const read = documentOf('slot: 1/4\npickup: 1\n5 | 4 4 4 4 |1 5 5 5 :|2 6 6 6 6 |]');
  const [pickup, first, one, two] = [...read.querySelectorAll('measure')];
  expect(pickup?.getAttribute('implicit')).toBe('yes');
  expect(attributes(read, 'repeat', 'direction')).toEqual(['forward', 'backward']);
  expect(pickup?.querySelector('repeat') ?? first?.querySelector('repeat')).not.toBeNull();
  expect(one && attributes(one, 'ending', 'type')).toEqual(['start', 'stop']);
  expect(two && attributes(two, 'ending', 'type')).toEqual(['start', 'discontinue']);
  expect(two && texts(two, 'bar-style')).toEqual(['light-heavy']);
});

test('jumps are directions with the sounds that programs play by', () => {
  const read = documentOf('slot: 1/4\n4 = = = |segno 5 = = = |to-coda 6 = = = |D.S.,coda 5 = = = |]');
  const [, second, third, coda] = [...read.querySelectorAll('measure')];
  expect(attributes(read, 'sound', 'segno')).toContain('segno');
  expect(second?.querySelector('direction-type > segno')).not.toBeNull();
  expect(second && texts(second, 'words')).toEqual(['To Coda']);
  expect(second && attributes(second, 'sound', 'tocoda')).toContain('coda');
  expect(third && texts(third, 'words')).toEqual(['D.S. al Coda']);
  expect(third && attributes(third, 'sound', 'dalsegno')).toEqual(['segno']);
  expect(coda && attributes(coda, 'sound', 'coda')).toEqual(['coda']);
  const fine = documentOf('slot: 1/4\n4 = = = |fine 5 = = = |D.C.');
  expect(attributes(fine, 'sound[fine]', 'fine')).toEqual(['yes']);
  expect(attributes(fine, 'sound[dacapo]', 'dacapo')).toEqual(['yes']);
});

test('a bar that is played again is shown as its sign, and has its notes', () => {
  const read = documentOf('slot: 1/4\n4 5 6 5 | % | % | 4 = = = |]');
  expect(attributes(read, 'measure-repeat', 'type')).toEqual(['start', 'stop']);
  expect(read.querySelectorAll('measure')[1]?.querySelectorAll('pitch').length).toBe(4);
});

test('a rest of several bars is one where no chord changes in it', () => {
  expect(texts(documentOf('slot: 1/4\n"I" 4 5 6 5 | .x3 | 4 = = = |]'), 'multiple-rest')).toEqual(['3']);
  expect(texts(documentOf('slot: 1/4\nchords: I | I | IV | I\n4 5 6 5 | .x3 |]'), 'multiple-rest')).toEqual([]);
});

test('a da capo that leaves the pickup out is a dal segno, since programs play the pickup after a da capo', () => {
  const words = (music: string) => texts(documentOf(`slot: 1/4\npickup: 1\n${music}`), 'words');
  expect(words('5 | 4 4 4 4 | 6 6 6 |D.C.')).toContain('D.C.');
  expect(words('5 | 4 4 4 4 | 6 6 6 6 |D.C.')).toContain('D.S.');
});

describe('a note', () => {
  test('has its tab under it and its hole in words, above them what the standard has no element for', () => {
    const read = documentOf("slot: 1/4\n-3'' 4[accent vibrato] 6o -(1 2)[staccato] | 4[tenuto] . . . |]");
    expect(texts(read, 'lyric[number="1"] text')).toEqual(["-3''", '4', '6o', '-(1 2)', '4']);
    expect(texts(read, 'other-technical')).toEqual([
      'draw 3, whole-step bend',
      'blow 4',
      'accented',
      'with vibrato',
      'overblow 6',
      'draw 1',
      'short',
      'draw 2',
      'blow 4',
      'held to its end',
    ]);
    expect([...read.querySelectorAll('articulations > *')].map(({ localName }) => localName)).toEqual([
      'accent',
      'staccato',
      'tenuto',
    ]);
    expect(attributes(read, 'wavy-line', 'type')).toEqual(['start', 'stop']);
  });
  test('that is only hinted at has each of its heads in parentheses', () => {
    const read = documentOf('slot: 1/4\n4[ghost] (4 5)[ghost accent] 4 . |]');
    expect(attributes(read, 'notehead', 'parentheses')).toEqual(['yes', 'yes', 'yes']);
    expect(texts(read, 'words')).toEqual(['lip purse']);
  });
  test('that is held over the bar line has its breath mark where it ends', () => {
    const read = documentOf('slot: 1/4\n4 4 4[breath] = | = 4 4 = | 5[breath] . . . |]');
    const notes = [...read.querySelectorAll('note')];
    const at = notes.flatMap((note, index) => (note.querySelector('articulations > breath-mark') ? [index] : []));
    expect(at).toEqual([3, 6]);
    expect(texts(read, 'breath-mark')).toEqual(['comma', 'comma']);
  });
  test('has the words of a mark above it that the standard has no sign for', () => {
    const read = documentOf('slot: 1/4\n4[hand wah] -4[shake 5] 4[accent] 4[tremolo] |]');
    expect(texts(read, 'words')).toEqual(['lip purse', 'hand, wah', 'shake 5', 'tremolo']);
  });
  test('that glides is under a slur with the next one', () => {
    const read = documentOf("slot: 1/4\n-3'> -3 4 4 |]");
    expect(attributes(read, 'slur', 'type')).toEqual(['start', 'stop']);
  });
  test('is spelled as on the staff, and shows the sign it needs', () => {
    const read = documentOf("slot: 1/4\nharp: C\nposition: 2\n-3' -3' -3 4 |]");
    expect(texts(read, 'accidental')).toEqual(['flat', 'natural']);
    expect(texts(read, 'alter')).toEqual(['-1', '-1']);
  });
  test('has the words of each verse, below the tab and the syllables', () => {
    const read = documentOf('slot: 1/2\n4 4 |]\nwords: A-men\nwords: so be\nsyllables: ta-ka');
    const lines = [...read.querySelectorAll('note:first-of-type lyric')].map((lyric) =>
      [lyric.getAttribute('number'), lyric.getAttribute('name'), ...texts(lyric, 'syllabic, text')].join(' '),
    );
    expect(lines).toEqual(['1 tab single 4', '2 syllables begin ta', '3 verse 1 begin A', '4 verse 2 single so']);
  });
  test('has its syllable in its word', () => {
    const read = documentOf('slot: 1/4\n4 4 4 4 |]\nwords: A- ma- zing grace_');
    expect(texts(read, 'lyric[number="2"] syllabic')).toEqual(['begin', 'middle', 'end', 'single']);
  });
});

describe('a chord', () => {
  const chord = (name: string): string => {
    const read = documentOf(`slot: 1/4\n"${name}" 4 4 4 4 |]`);
    const degrees = [...read.querySelectorAll('degree')].map((degree) => texts(degree, '*').join(' '));
    return [texts(read, 'root > *').join(''), texts(read, 'kind')[0], ...degrees].join(', ');
  };
  /** Source: “MusicXML 4.0”, kind-value data type: the degrees of each kind. */
  test.each([
    ['C', 'C, major'],
    ['Bb7', 'B-1, dominant'],
    ['F#m7', 'F1, minor-seventh'],
    ['Cmaj7', 'C, major-seventh'],
    ['Cm7b5', 'C, half-diminished'],
    ['Cdim7', 'C, diminished-seventh'],
    ['C6', 'C, major-sixth'],
    ['C9', 'C, dominant-ninth'],
    ['C7#9', 'C, dominant, 9 1 add'],
    ['C7b9', 'C, dominant, 9 -1 add'],
    ['Csus4', 'C, suspended-fourth'],
    ['Cadd9', 'C, major, 9 0 add'],
  ])('%s is %s', (name, kind) => expect(chord(name)).toBe(kind));

  test('has its bass before its degrees', () => {
    const read = documentOf('slot: 1/4\n"D7b9/F#" 4 4 "C/E" 4 4 |]');
    expect(
      [...read.querySelectorAll('harmony')].map((each) => [...each.children].map(({ localName }) => localName)),
    ).toEqual([
      ['root', 'kind', 'bass', 'degree'],
      ['root', 'kind', 'bass'],
    ]);
    expect(texts(read, 'bass > *')).toEqual(['F', '1', 'E']);
  });
  /** Source: “MusicXML 4.0”, kind-value data type: none. */
  test('that is none is a kind of its own, whose root is not shown', () => {
    const read = documentOf('slot: 1/4\n"C" 4 4 "N.C." 4 4 |]');
    expect(texts(read, 'kind')).toEqual(['major', 'none']);
    expect(attributes(read, 'kind', 'text')).toEqual(['', 'N.C.']);
    expect([...read.querySelectorAll('root-step')].map((root) => root.getAttribute('text'))).toEqual([null, '']);
  });
  test('that comes in while a note is held is at its place', () => {
    const read = documentOf('slot: 1/4\nchords: C7 | C7 F7\n4 4 4 4 | . . . . |]');
    const [, second] = read.querySelectorAll('measure');
    expect(second && texts(second, 'harmony root-step')).toEqual(['C', 'F']);
    expect(second && texts(second, 'harmony > offset')).toEqual(['2']);
  });
});

test('the embouchure is said where it changes', () => {
  expect(texts(documentOf('slot: 1/4\n4 @tongue 4 4 @lips 4 |]'), 'words')).toEqual([
    'lip purse',
    'tongue block',
    'lip purse',
  ]);
});
