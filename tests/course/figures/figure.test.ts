import { describe, expect, it } from 'vitest';
import { FIGURE_PROBLEMS } from '../../../src/course/figures/problems.ts';
import { loadFrom } from '../../../src/course/load.ts';
import type { Figure } from '../../../src/engrave/figure/figure.ts';
import { plainChord } from '../../../src/harmony/chord.ts';
import { harpName } from '../../../src/instrument/harp.ts';
import { tabOfNotes } from '../../../src/instrument/playable.ts';
import { itemAt } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';
import { ownProblems } from '../own-problems.ts';

const HEAD = '---\ntitle: One\nharp: A\nposition: 2\nform: twelve-bar\n---\n\n';

/** A course of two lessons, the first with this text; the other has a block `lick` with a phrase `answer`. */
function load(text: string, head = HEAD) {
  const other =
    "---\ntitle: Two\n---\n\n```tab\nid: lick\nslot: 1/4\n\nphrase answer: -2 -3' {4 -2}\n<answer> (1 4)[tongue] |\n```\n";
  const course = loadFrom(
    filesInMemory({ 'course.yaml': 'title: A course\n', 'lessons/one.mdx': head + text, 'lessons/two.mdx': other }),
  );
  const lesson = course.byId.get('one');
  return {
    figures: lesson?.figures.map(({ figure }) => figure) ?? [],
    problems: ownProblems(course.problems, FIGURE_PROBLEMS).filter(({ file }) => file === 'lessons/one.mdx'),
  };
}

function figure<Kind extends Figure['kind']>(kind: Kind, text: string): Figure & { kind: Kind } {
  const { figures, problems } = load(`${text}\n`);
  expect(problems).toEqual([]);
  const first = itemAt(figures, 0);
  expect(first?.kind).toBe(kind);
  return first as Figure & { kind: Kind };
}

describe('a role table', () => {
  it('takes harp, position and form from its lesson', () => {
    const table = figure('role-table', `<RoleTable notes="-3 -3' -3''" />`);
    expect(harpName(table.harp)).toBe('A');
    expect(table.chords.map(plainChord)).toEqual(['E7', 'A7', 'B7']);
    expect(table.notes.map(({ hole, bend }) => [hole, bend])).toEqual([
      [3, 0],
      [3, 1],
      [3, 2],
    ]);
  });

  it('may name its own', () => {
    const table = figure(
      'role-table',
      '<RoleTable harp="low F" position={1} chords="I | ii7" notes="4 4" title="Home" />',
    );
    expect(harpName(table.harp)).toBe('low F');
    expect(table.chords.map(plainChord)).toEqual(['F', 'Gm7']);
    expect(table.notes).toHaveLength(1);
    expect(table.title).toBe('Home');
  });
});

describe('a harp map', () => {
  it('lights a scale, a chord, notes, a phrase, a block or the lesson', () => {
    expect(figure('harp-map', '<HarpMap scale="blues" />')).toMatchObject({
      show: 'degrees',
      lit: { by: 'scale', scale: 'blues' },
    });
    expect(figure('harp-map', '<HarpMap chord="IV7" />')).toMatchObject({
      show: 'roles',
      lit: { chord: { suffix: '7' } },
    });
    expect(figure('harp-map', '<HarpMap chord="i7" />')).toMatchObject({ key: { mode: 'minor' } });
    expect(figure('harp-map', '<HarpMap notes="-2 6o" />')).toMatchObject({ show: 'notes', overbends: true });
    const phrase = figure('harp-map', '<HarpMap phrase="two/lick:answer" over="I7" />');
    expect(phrase).toMatchObject({ show: 'roles', chord: { suffix: '7' } });
    expect(phrase.lit?.by === 'notes' && phrase.lit.notes.map(({ hole, bend }) => `${hole}${bend}`)).toEqual([
      '20',
      '31',
      '40',
    ]);
    const block = figure('harp-map', '<HarpMap block="two/lick" />');
    expect(block.lit?.by === 'notes' && block.lit.notes).toHaveLength(4);
    const lesson = figure('harp-map', '<HarpMap lesson />\n\n```tab\nform: none\nslot: 1/4\n-2 -3 4 -4\n```');
    expect(lesson.lit?.by === 'notes' && lesson.lit.notes.map(({ hole }) => hole)).toEqual([2, 3, 4, 4]);
  });

  it('shows what it is set to show', () => {
    expect(figure('harp-map', '<HarpMap bends="no" overbends show="degrees" tuning="natural-minor" />')).toMatchObject({
      show: 'degrees',
      bends: false,
      overbends: true,
      harp: { tuning: { id: 'natural-minor' } },
    });
  });
});

describe('a form chart', () => {
  it('has the bars of its form, and a target where one is named', () => {
    const chart = figure('form-chart', `<FormChart form="eight-bar" targets="-2 | . | 4 | | -3'" />`);
    expect(chart.bars).toHaveLength(8);
    expect(chart.bars.map(({ target }) => target?.hole)).toEqual([
      2,
      undefined,
      4,
      undefined,
      3,
      undefined,
      undefined,
      undefined,
    ]);
    expect(chart.bars[5]?.chords.map(plainChord)).toEqual(['B7', 'A7']);
    expect(chart.form).toBe('Eight-bar');
  });

  it('may be a part of a form', () => {
    expect(figure('form-chart', '<FormChart form="twelve-bar bars 9-12" />')).toMatchObject({
      form: 'Twelve-bar, bars 9 to 12',
    });
  });
});

it('a bend ladder is of one hole', () => {
  expect(figure('bend-ladder', '<BendLadder hole={3} />')).not.toHaveProperty('overbends');
  expect(figure('bend-ladder', '<BendLadder hole={3} overbends="yes" cents hertz="no" />')).toMatchObject({
    hole: 3,
    overbends: true,
    cents: true,
  });
  expect(figure('bend-ladder', '<BendLadder hole="10" harp="high G" />')).toMatchObject({
    hole: 10,
    harp: { register: 'high' },
  });
});

describe('target notes', () => {
  it('take the chords of the form, each once, and the low holes', () => {
    const notes = figure('target-notes', '<TargetNotes />');
    expect(notes.chords.map(plainChord)).toEqual(['E7', 'A7', 'B7']);
    expect(notes).toMatchObject({ holes: [1, 6], bends: true, overbends: false });
  });

  it('may look at other holes, without bends or with overbends', () => {
    expect(figure('target-notes', '<TargetNotes chords="I7" holes="4" bends="no" overbends />')).toMatchObject({
      holes: [4, 4],
      bends: false,
      overbends: true,
    });
    expect(figure('target-notes', '<TargetNotes holes="7–10" />')).toMatchObject({ holes: [7, 10] });
  });
});

describe('a rhythm line', () => {
  it('is read as music with one sign for a stroke, in the settings of the lesson', () => {
    const line = figure('rhythm-line', '<RhythmLine rhythm="x[accent] = x x . x x = |]" tempo="96" feel="shuffle" />');
    expect(line.playback).toMatchObject({ tempo: 96, feel: { name: 'shuffle' }, meter: { beats: 4, unit: 4 } });
    expect(line.playback.bars).toHaveLength(1);
    expect(line.playback.bars[0]?.events.map(({ notes, marks }) => [notes !== undefined, marks])).toEqual([
      [true, ['accent']],
      [true, undefined],
      [true, undefined],
      [false, undefined],
      [true, undefined],
      [true, undefined],
    ]);
  });

  it('has syllables for its strokes', () => {
    const line = figure('rhythm-line', '<RhythmLine slot="1/4" rhythm="x x . x" syllables="ta-ka da" />');
    expect(line.syllables).toEqual(['ta-', 'ka', null, 'da']);
  });
});

describe('a tune side by side', () => {
  const TUNE = "\n\n```tab\nid: tune\nharp: C\nform: none\nkey: major\nslot: 1/4\n-2 -3 -4 6 | -3' . 4 = |]\n```";

  it('keeps its notes on two harps, each in the position of its key, an octave higher where that takes no overbend', () => {
    const { sides, bars, tune } = figure('side-by-side', `<SideBySide block="tune" harps="C, G" />${TUNE}`);
    expect(tune).toBe('tune');
    expect(sides.map(({ harp, position, shift }) => [harpName(harp), position, shift])).toEqual([
      ['C', 2, 0],
      ['G', 1, 12],
    ]);
    expect(sides.map(({ bent, overbent }) => [bent, overbent])).toEqual([
      [1, 0],
      [1, 0],
    ]);
    const tabs = bars.flatMap(({ notes }) =>
      notes.map(({ held }) => held.map((own) => own && tabOfNotes(own.notes, own.breath))),
    );
    expect(tabs).toEqual([
      ['-2', '7'],
      ['-3', '8'],
      ['-4', '9'],
      ['6', '10'],
      ["-3'", "8'"],
      ['4', '-9'],
    ]);
  });

  it('moves to the key of each position', () => {
    const { sides } = figure('side-by-side', `<SideBySide block="tune" positions="1, 2" />${TUNE}`);
    expect(sides.map(({ key, position }) => [key.tonic.letter, position])).toEqual([
      ['C', 1],
      ['G', 2],
    ]);
    expect(sides.map(({ shift }) => shift)).toEqual([17, 0]);
  });
});

it('note lengths are written in the slot of the lesson, or in their own', () => {
  expect(figure('note-lengths', '<NoteLengths />').slot).toEqual({ n: 1, d: 8 });
  expect(figure('note-lengths', '<NoteLengths slot="1/16" />').slot).toEqual({ n: 1, d: 16 });
  const { figures } = load('<NoteLengths />\n', '---\ntitle: One\nslot: 1/4\n---\n\n');
  expect(figures).toMatchObject([{ slot: { n: 1, d: 4 } }]);
});

/** Every problem of a figure, at the characters it points at. `‹…›` marks them. */
const REJECTED: readonly (readonly [string, string])[] = [
  ['figure-value', '<RoleTable notes="4" harp="‹H›" />'],
  ['figure-value', '<HarpMap position="‹13›" />'],
  ['figure-value', '<HarpMap phrase="‹answer›" />'],
  ['figure-choice', '<HarpMap scale="‹bleus›" />'],
  ['figure-choice', '<HarpMap bends="‹perhaps›" />'],
  ['figure-notes-only', '<RoleTable notes="-2 ‹=› 4" />'],
  ['figure-notes-only', '<RoleTable notes="‹-2 | 4›" />'],
  ['figure-empty', '<RoleTable notes="‹.›" />'],
  ['bend-too-deep', `<RoleTable notes="-3 ‹-2'''›" />`],
  ['no-hole', '<HarpMap notes="4 ‹11›" />'],
  ['no-slide', '<FormChart targets="4 | ‹4*›" />'],
  ['figure-chord', '<HarpMap chord="‹H7›" />'],
  ['figure-chord', '<HarpMap over="‹nothing›" />'],
  ['figure-lights', '<HarpMap scale="blues" ‹chord›="I7" />'],
  ['figure-unknown', '<HarpMap phrase="‹two/lick:anwser›" />'],
  ['figure-unknown', '<HarpMap block="‹two/lik›" />'],
  ['figure-unknown', '<HarpMap block="‹tow/lick›" />'],
  ['figure-other-tuning', '<HarpMap block="‹two/lick›" tuning="natural-minor" />'],
  ['figure-no-hole', '<BendLadder hole="‹11›" />'],
  ['figure-no-hole', '<BendLadder hole="‹three›" />'],
  ['figure-choice', '<NoteLengths slot="‹1/3›" />'],
  ['figure-sides', '<‹SideBySide› block="two/lick" />'],
  ['figure-sides', '<SideBySide block="two/lick" harps="C, A" ‹positions›="1, 2" />'],
  ['figure-sides', '<SideBySide block="two/lick" harps="‹C›" />'],
  ['figure-sides', '<SideBySide block="two/lick" positions="‹1, 2, 3›" />'],
  ['figure-value', '<SideBySide block="two/lick" harps="C, ‹H›" />'],
  ['figure-value', '<SideBySide block="two/lick" positions="‹13›, 2" />'],
  ['figure-unknown', '<SideBySide block="‹two/lik›" harps="C, A" />'],
  ['figure-stroke', `<RhythmLine rhythm="x ‹-3'› x" />`],
  ['figure-stroke', '<RhythmLine rhythm="x x ‹4› x" />'],
  ['figure-stroke', '<RhythmLine rhythm="x ‹:›| x" />'],
  ['figure-stroke', '<RhythmLine rhythm="x ‹I7› x" />'],
  ['figure-empty', '<RhythmLine rhythm="‹.8›" />'],
  ['bar-too-short', '<RhythmLine rhythm="x = = = = = = = | ‹x x x x x› | x = = = = = = =" />'],
  ['figure-value', '<RhythmLine rhythm="x" meter="‹5›" />'],
  ['figure-holes', '<TargetNotes holes="‹4-11›" />'],
  ['figure-holes', '<TargetNotes holes="‹6-4›" />'],
  ['figure-holes', '<TargetNotes holes="‹low›" />'],
  ['figure-targets', '<FormChart form="twelve-bar bars 1-2" targets="‹4 | 4 | 4›" />'],
  ['figure-target-many', '<FormChart targets="‹4 5 | 4›" />'],
  ['component-key', '<BendLadder hole="3" ‹notes›="4" />'],
  ['component-key-missing', '<‹RoleTable› />'],
  ['figure-unreadable', '<HarpMap block="‹broken›" />\n\n```tab\nid: broken\n11\n```'],
];

describe('a figure with a mistake', () => {
  it.each(REJECTED)('is refused as %s: %s', (code, marked) => {
    const from = marked.indexOf('‹');
    const to = marked.indexOf('›') - 1;
    const { problems, figures } = load(`${marked.replace(/[‹›]/g, '')}\n`);
    const line = HEAD.split('\n').length;
    const problem = problems.find((each) => each.code === code);
    expect(problem).toMatchObject({ line, column: from + 1, endLine: line, endColumn: to + 1, severity: 'error' });
    if (!code.startsWith('component')) expect(figures).toEqual([undefined]);
  });

  it.each([
    ['<HarpMap scale="natural minor" />', 'aeolian'],
    ['<HarpMap scale="pentatonic-minor" />', 'minor-pentatonic'],
    ['<HarpMap bends="false" />', 'no'],
    ['<HarpMap bends="on" />', 'yes'],
    ['<HarpMap show="note" />', 'notes'],
  ])('suggests what was meant: %s', (written, meant) => {
    const { problems } = load(`${written}\n`);
    expect(problems.map(({ code, help }) => [code, help])).toEqual([['figure-choice', `Did you mean “${meant}”?`]]);
  });

  it('needs chords from somewhere', () => {
    const { problems } = load('<FormChart />\n', '---\ntitle: One\n---\n\n');
    expect(problems.map(({ code }) => code)).toEqual(['figure-no-chords']);
    expect(problems[0]).toMatchObject({ line: 5, column: 2, endColumn: 11 });
  });

  it('is met here for every code of the catalogue', () => {
    const met = new Set([...REJECTED.map(([code]) => code), 'figure-no-chords']);
    expect(Object.keys(FIGURE_PROBLEMS).filter((code) => !met.has(code))).toEqual([]);
  });

  it('does not hide the next one', () => {
    const { figures, problems } = load('<BendLadder hole="0" />\n\n<BendLadder hole="4" />\n');
    expect(figures.map((each) => each?.kind)).toEqual([undefined, 'bend-ladder']);
    expect(problems).toHaveLength(1);
  });
});

it('offsets hold where a value is written in braces or holds a look-alike', () => {
  const { problems } = load('<RoleTable notes={"-3 11"} />\n\n<RoleTable notes="–3 11" />\n');
  expect(problems.map(({ line, column, endColumn }) => [line, column, endColumn])).toEqual([
    [8, 19, 26],
    [10, 22, 24],
  ]);
});
