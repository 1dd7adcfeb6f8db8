import { describe, expect, test } from 'vitest';
import { courseSchema, tablesOf } from '../../src/course/course-schema.ts';
import { lessonSchema } from '../../src/course/lesson-schema.ts';
import { checkYaml } from '../../src/document/check-yaml.ts';
import { readYaml } from '../../src/document/yaml.ts';
import { SHIPPED_TABLES } from '../../src/notation/setting-values.ts';

const lesson = (text: string) => checkYaml(lessonSchema(SHIPPED_TABLES), readYaml(text), { title: 'fallback' });
const course = (text: string) => {
  const read = readYaml(text);
  return checkYaml(courseSchema(tablesOf(read.value)), read, { title: 'fallback' });
};
const said = ({ diagnostics }: { diagnostics: readonly { code: string; message: string }[] }): string[] =>
  diagnostics.map(({ message }) => message);

describe('front matter', () => {
  test('needs a title and nothing else', () => {
    const { value, diagnostics } = lesson('title: First notes\n');
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({
      title: 'First notes',
      requires: [],
      teaches: [],
      draft: false,
      allow: [],
      clips: {},
      settings: {},
    });
  });

  test('may say all of this', () => {
    const { value, diagnostics } = lesson(
      [
        'title: 12',
        'summary: >-',
        '  Two',
        '  lines',
        'stage: one',
        'requires: [a, b]',
        'teaches:',
        '  - slap',
        'minutes: 15',
        'draft: yes',
        'order: 2.5',
        'harp: low F',
        'tuning: natural-minor',
        'position: 2',
        'meter: 12/8',
        'tempo: 92',
        'feel: 60:40',
        'slot: 1/16',
        'form: twelve-bar',
        'mouth: tongue',
        'allow:',
        '  - code: never-taught',
        '    reason: They bring it from the first course.',
      ].join('\n'),
    );
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({
      title: '12',
      summary: 'Two lines',
      stage: 'one',
      requires: ['a', 'b'],
      teaches: ['slap'],
      minutes: 15,
      draft: true,
      order: 2.5,
      allow: [{ code: 'never-taught', reason: 'They bring it from the first course.' }],
      settings: {
        harp: { key: { letter: 'F', alter: 0 }, register: 'low' },
        tuning: { id: 'natural-minor' },
        position: 2,
        meter: { beats: 12, unit: 8 },
        tempo: 92,
        feel: { long: 60, short: 40 },
        slot: { n: 1, d: 16 },
        progression: { form: 'twelve-bar' },
        mouth: 'tongue',
      },
    });
  });

  test('takes a single item for a list of one, and nothing for none', () => {
    expect(lesson('title: A\nrequires: first\nteaches:\n').value).toMatchObject({ requires: ['first'], teaches: [] });
  });

  test('keeps the words of another setting from a course when it says none', () => {
    expect(lesson('title: A\nform: none\n').value.settings).toHaveProperty('progression', undefined);
  });

  test.each([
    ['harp: H', '“H” is no harp.'],
    ['position: 13', '“13” is no position.'],
    ['feel: lazy', '“lazy” is no feel.'],
    ['slot: 1/7', '“1/7” is no slot length.'],
    ['form: twelve-bra', 'There is no form “twelve-bra”.'],
    ['draft: maybe', '“draft” is true or false, not “maybe”.'],
    ['order: first', '“order” is a number from -1000000 to 1000000, not “first”.'],
    ['minutes: 1.5', '“minutes” is a whole number from 1 to 600, not “1.5”.'],
    ['summary: [a]', '“summary” takes a text, not a list or a group of keys.'],
    ['requires: {a: b}', 'Each entry of “requires” takes a text, not a list or a group of keys.'],
    ['allow: never-taught', 'Each entry of “allow” is a group of “key: value” lines with code, reason.'],
    ['title: B', 'The key “title” appears twice.'],
  ])('does not take %j', (line, message) => {
    const read = readYaml(`title: A\n${line}\n`);
    const { value, diagnostics } = checkYaml(lessonSchema(SHIPPED_TABLES), read, { title: 'fallback' });
    expect([...read.diagnostics, ...diagnostics].map(({ message: words }) => words)).toEqual([message]);
    expect(value.title).toBe('A');
  });

  test('of another shape is reported', () => {
    expect(said(lesson('- a\n- b\n'))).toEqual(['This file is a group of “key: value” lines.']);
    expect(said(lesson('words\n'))).toEqual(['This file is a group of “key: value” lines.']);
    expect(said(lesson('# nothing\n'))).toEqual(['“title” is missing.']);
  });

  test('reports every mistake at once, those that need two keys included', () => {
    expect(said(lesson('titel: A\ntempo: x\nform: twelve-bar\nchords: I7\n'))).toEqual([
      '“x” is no tempo.',
      'There is no key “titel” here.',
      'Chords are listed here, and a form is named as well.',
    ]);
  });
});

describe('a list of groups', () => {
  const EACH = 'Each entry of “stages” is a group of “key: value” lines with id, title, summary, formerly.';
  test.each([
    ['{in: Breathing in, out: Breathing out}', 'in', 'Breathing in', 9],
    ['{breath: {title: Breath}, blues: {title: Blues}}', 'breath', '…', 9],
    ['[{breath: Breath}, {blues: The blues}]', 'breath', 'Breath', 10],
    ['[{id: breath, title: Breath}, blues]', 'blues', '…', 39],
    ['breath', 'breath', '…', 9],
    ['[[breath, blues]]', 'breath', 'blues', 10],
  ])('of another shape (%s) is reported once, with its own words put right', (stages, id, title, column) => {
    const { value, diagnostics } = course(`title: A\nstages: ${stages}\n`);
    expect(diagnostics.map(({ message, help, span }) => [message, help, span.from - 8])).toEqual([
      [EACH, `Write “- id: ${id}”, and “title: ${title}” in a line below it.`, column],
    ]);
    expect(value.stages).toEqual([]);
  });

  test('reports each mistake of its own in groups that are meant as such', () => {
    expect(said(course('title: A\nstages: [{id: a, titel: A}, {id: b}]\n'))).toEqual([
      'There is no key “titel” here.',
      '“title” is missing.',
    ]);
    expect(course('title: A\nstages: {id: a, title: A}\n').diagnostics).toEqual([]);
  });

  test.each([
    [
      'title: A\n  harp: C\n',
      'This line is indented further than the one above it, so it is read as going on with its value.',
    ],
    ['title: A: b\n', 'A second colon in this line makes YAML see a key inside a value.'],
  ])('as a mistake of indentation or a colon, is reported as what it is: %j', (text, message) => {
    expect(said(readYaml(text))).toEqual([message]);
  });

  test('and a file without spaces behind its colons reports where they belong', () => {
    expect(readYaml('title:A\nharp:C\n').diagnostics.map(({ help }) => help)).toEqual([
      'Write a space behind the colon: title: A',
    ]);
  });

  test('that is indented unevenly is reported once', () => {
    const { diagnostics } = readYaml('title: A\nstages:\n  - id: a\n  title: B\n');
    expect(diagnostics.map(({ code }) => code)).toEqual(['yaml-syntax']);
  });
});

describe('course.yaml', () => {
  test('needs a title and nothing else', () => {
    const { value, diagnostics } = course('title: A course\n');
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({
      title: 'A course',
      language: 'en',
      cautions: [],
      stages: [],
      tunings: [],
      forms: [],
      severity: new Map(),
      settings: {},
    });
  });

  test('may say all of this', () => {
    const { value, diagnostics } = course(
      [
        'title: A course',
        'summary: What it is.',
        'teacher: Somebody',
        'language: de-CH',
        'url: https://example.org/course/',
        'licence: CC BY 4.0',
        'cautions: Breathe.',
        'stages:',
        '  - {id: one, title: One, summary: The first.}',
        'severity:',
        '  fence-word: error',
        '  picture-alt: off',
        'forms:',
        '  vamp: I7 | IV7 = I7 =',
        'tunings:',
        '  spare: {blow: C E G C, draw: [D, G, B, D], valves: yes}',
        'chords: I | V',
      ].join('\n'),
    );
    expect(diagnostics).toEqual([]);
    expect(value).toMatchObject({
      language: 'de-CH',
      cautions: ['Breathe.'],
      stages: [{ id: 'one', title: 'One', summary: 'The first.' }],
      severity: new Map([
        ['fence-word', 'error'],
        ['picture-alt', 'off'],
      ]),
      forms: [{ id: 'vamp', title: 'Vamp' }],
      tunings: [{ id: 'spare', title: 'Spare', blow: [0, 4, 7, 12], valves: true }],
    });
  });

  test.each([
    ['language: Deutsch!', '“language” is a language tag, such as en, en-GB or de.'],
    ['language: english', '“language” is a language tag, such as en, en-GB or de.'],
    ['url: example.org', '“url” is a web address that begins with https://.'],
    ['stages: [{id: a b, title: A}]', '“id” is an id of letters, digits and hyphens, such as first-bends.'],
    ['stages: [{id: a, title: A}, {id: a, title: B}]', '“id” is the id of another stage already.'],
    ['severity: {fence-word: loud}', '“fence-word” is one of error, warning, hint, off, not “loud”.'],
    ['forms: [I7]', '“forms” is a group of “name: …” lines, without dashes.'],
    ['forms: I7 | IV7', '“forms” is a group of “name: …” lines.'],
    ['forms: {vamp: I7 | H}', '“vamp” has “H” in it, which is no chord symbol.'],
    ['forms: {vamp: I7 | | I7}', '“vamp” has an empty bar.'],
    ['forms: {twelve-bar: I7}', '“twelve-bar” is the name of one that is there already.'],
    ['tunings: {spare: {blow: C E G C}}', '“draw” is missing.'],
    ['tunings: {spare: {blow: C E X C, draw: D G B D}}', '“X” is not a note.'],
    ['tunings: {richter: {blow: C E G C, draw: D G B D}}', '“richter” is the name of one that is there already.'],
  ])('does not take %j', (line, message) => {
    const { value, diagnostics } = course(`title: A\nteacher: Somebody\n${line}\n`);
    expect(diagnostics.map(({ message: words }) => words)).toEqual([message]);
    expect(value.teacher).toBe('Somebody');
  });
});
