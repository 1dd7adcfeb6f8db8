/** The elements of HTML and the components that a lesson may hold, and what each takes: no more and no less. */
import { describe, expect, test } from 'vitest';
import {
  COMPONENTS,
  FIGURES,
  INLINES,
  isClip,
  isFigure,
  isInline,
  isWord,
  LINKED_WORDS,
  WITH_CONTENT,
} from '../../src/lesson/component.ts';
import { ELEMENTS } from '../../src/lesson/element.ts';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { lesson } from '../course/some-course.ts';

const words = (text: string): string[] => text.trim().split(/\s+/);

/** How a text, a table or a picture is set out; nothing that runs, fetches, submits or names. */
const OF_EVERY_ELEMENT = words(`
  abbr align alt axis border cellpadding cellspacing char charoff clear colspan color compact datetime dir frame headers
  height hreflang hspace lang noshade nowrap open rev rowspan rules scope span start summary title valign value width`);

/** What some elements take besides. */
const OWN: Readonly<Record<string, string>> = {
  a: 'aria-label download href rel target',
  audio: 'controls loop preload src',
  blockquote: 'cite',
  del: 'cite',
  dl: 'aria-label',
  img: 'aria-label src',
  ins: 'cite',
  ol: 'aria-label reversed type',
  q: 'cite',
  source: 'src type',
  summary: 'aria-label',
  table: 'aria-label',
  track: 'default kind label src srclang',
  ul: 'aria-label',
  video: 'controls loop poster preload src',
};

test('a lesson may hold elements of text, tables and media, and no others', () => {
  expect([...ELEMENTS.keys()]).toEqual(
    words(`
      a abbr audio b bdi bdo blockquote br caption cite code col colgroup dd del details dfn div dl dt em figcaption figure
      h1 h2 h3 h4 h5 h6 hr i img ins kbd li mark ol p pre q rp rt ruby s samp section small source span strike strong sub
      summary sup table tbody td tfoot th thead time tr track tt u ul var video wbr`),
  );
});

test.each([...ELEMENTS])('<%s> takes what is its own, and what every element takes', (name, attributes) => {
  expect([...attributes].sort()).toEqual([...OF_EVERY_ELEMENT, ...words(OWN[name] ?? '').filter(Boolean)].sort());
});

const PLACE = ['harp', 'position', 'title', 'tuning'];
const SAID = ['article', 'capital', 'follow', 'harp', 'mode', 'position', 'tuning'];
/** The attributes of each component; those it cannot do without have an exclamation mark. */
const TAKES: Readonly<Record<string, readonly string[]>> = {
  RoleTable: [...PLACE, 'chords', 'form', 'notes!'],
  HarpMap: [
    ...PLACE,
    ...['bends', 'block', 'chord', 'lesson', 'notes', 'over', 'overbends', 'phrase', 'scale', 'show'],
  ],
  FormChart: [...PLACE, 'chords', 'form', 'targets'],
  TargetNotes: [...PLACE, 'bends', 'chords', 'form', 'holes', 'overbends'],
  RhythmLine: ['feel', 'meter', 'rhythm!', 'slot', 'syllables', 'tempo', 'title'],
  SideBySide: ['block!', 'harps', 'positions', 'title'],
  NoteLengths: ['slot', 'title'],
  BendLadder: ['cents', 'harp', 'hertz', 'hole!', 'overbends', 'title', 'tuning'],
  Note: [...SAID, 'over', 'show'],
  Chord: [...SAID, 'show'],
  Key: [...SAID, 'show'],
  Harp: [...SAID, 'show'],
  Position: [...SAID, 'show'],
  Technique: ['of'],
  Term: ['of'],
  Clip: ['captions', 'cues', 'name', 'src', 'title'],
};

describe('a component', () => {
  test('is one of these', () => {
    expect([...COMPONENTS.keys()]).toEqual(Object.keys(TAKES));
    const others = [...Object.keys(INLINES), ...Object.keys(LINKED_WORDS), 'Clip'];
    expect(Object.keys(FIGURES)).toEqual(Object.keys(TAKES).filter((name) => !others.includes(name)));
  });
  test.each(Object.entries(TAKES))('<%s> takes these attributes', (name, attributes) => {
    const own = Object.entries(COMPONENTS.get(name) ?? {}).map(([key, need]) =>
      need === 'required' ? `${key}!` : key,
    );
    expect(own.sort()).toEqual([...attributes].sort());
  });
  test.each(Object.entries(TAKES))(
    '<%s> is read with all of them, and lacks only what it needs',
    (name, attributes) => {
      const end = WITH_CONTENT.has(name) ? `>x</${name}>` : ' />';
      const codes = (keys: readonly string[]): string[] =>
        readLessonText(
          lesson(`<${name} ${keys.map((key) => `${key.replace('!', '')}="x"`).join(' ')}${end}`),
        ).diagnostics.map(({ code }) => code);
      expect(codes(attributes)).toEqual([]);
      expect(codes([])).toEqual(attributes.filter((key) => key.endsWith('!')).map(() => 'component-key-missing'));
      expect(codes([...attributes, 'loud'])).toEqual(['component-key']);
    },
  );
  test('is a figure or a clip', () => {
    expect(Object.keys(TAKES).filter((name) => isFigure({ name }))).toEqual(Object.keys(FIGURES));
    expect(Object.keys(TAKES).filter((name) => isClip({ name }))).toEqual(['Clip']);
    for (const is of [isFigure, isInline, isWord]) expect(is({ name: 'toString' })).toBe(false);
  });
});
