import { unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Course } from '../../src/course/course.ts';
import { loadCourse } from '../../src/course/load.ts';
import { PATH_PROBLEMS } from '../../src/curriculum/problems.ts';
import { DOCUMENT_PROBLEMS } from '../../src/document/problems.ts';
import { LESSON_PROBLEMS } from '../../src/lesson/problems.ts';
import { NOTATION_PROBLEMS } from '../../src/notation/problems.ts';
import { DEFAULTS } from '../../src/notation/settings.ts';
import { ownProblems } from './own-problems.ts';
import { courseOf, folderOf, lesson, write } from './some-course.ts';

/** Of reading and of the notation: what other checks say of these courses is their affair. */
const problemsOf = ({ problems }: Course) =>
  ownProblems(problems, DOCUMENT_PROBLEMS, LESSON_PROBLEMS, NOTATION_PROBLEMS, PATH_PROBLEMS);
const codes = (course: Course): string[] => problemsOf(course).map(({ file, line, code }) => `${file}:${line} ${code}`);
const tab = (text: string): string => `\`\`\`tab\nslot: 1/4\n${text}\n\`\`\`\n`;

describe('a course', () => {
  test('hands settings down from course.yaml to lessons to blocks', () => {
    const dir = courseOf({
      'course.yaml': 'title: A course\nharp: low F\nposition: 2\ntempo: 70\nmeter: 12/8\nfeel: 60:40\n',
      'lessons/a.mdx': lesson('```tab\nslot: 3/8\ntempo: 100\n4 4 4 4\n```\n', 'title: A\nharp: F#\ntempo: 90'),
    });
    const course = loadCourse(dir);
    expect(codes(course)).toEqual([]);
    expect(course.defaults).toMatchObject({
      position: 2,
      tempo: 70,
      feel: { long: 60, short: 40 },
      mouth: DEFAULTS.mouth,
    });
    const a = course.byId.get('a');
    expect(a?.defaults).toMatchObject({
      harp: { key: { letter: 'F', alter: 1 }, register: 'standard' },
      tempo: 90,
      position: 2,
    });
    expect(a?.blocks[0]?.score).toMatchObject({ tempo: 100, position: 2, meter: { beats: 12, unit: 8 } });
  });

  test('knows the forms and tunings it defines, in front matter and in blocks', () => {
    const dir = courseOf({
      'course.yaml': [
        'title: A course',
        'form: vamp',
        'forms:',
        '  vamp: I7 | IV7',
        'tunings:',
        '  spare:',
        '    title: Spare fifths',
        '    blow: C E G C E G C E G C',
        '    draw: D G B D F A B D F# A',
        '',
      ].join('\n'),
      'lessons/a.mdx': lesson(tab('tuning: spare\n-9 = = = | 4 = = ='), 'title: A'),
      'lessons/b.mdx': lesson(tab('form: vamp\n4 = = ='), 'title: B\ntuning: spare'),
    });
    const course = loadCourse(dir);
    expect(codes(course)).toEqual(['lessons/b.mdx:9 form-unfilled']);
    expect(course.file.forms).toEqual([{ id: 'vamp', title: 'Vamp', bars: 'I7 | IV7' }]);
    expect(course.file.tunings.map(({ id, title }) => [id, title])).toEqual([['spare', 'Spare fifths']]);
    const [bar] = course.byId.get('a')?.blocks[0]?.score?.bars ?? [];
    expect(bar?.events[0]).toMatchObject({ notes: [{ pitch: { midi: 90 } }] });
    expect(bar?.chords[0]?.chord).toMatchObject({ numeral: 'I7' });
  });

  test('quotes across lessons, and says which blocks quote which', () => {
    const dir = courseOf({
      'lessons/blues/riffs.mdx': lesson(tab('id: answer\nphrase turn: -2 -3\n<turn> 4 .')),
      'lessons/solo.mdx': lesson(tab('<blues/riffs/answer:turn> <blues/riffs/answer:turn> | <blues/riffs/answer>')),
    });
    const course = loadCourse(dir);
    expect(codes(course)).toEqual([]);
    const [block] = course.byId.get('solo')?.blocks ?? [];
    expect(block?.score?.bars.length).toBe(2);
    expect(block?.quotes).toEqual([
      {
        lesson: 'blues/riffs',
        block: 'answer',
        range: { start: { line: 7, column: 1 }, end: { line: 7, column: 26 } },
      },
    ]);
  });

  test('reads a chain of a thousand lessons that quote each other, and reports each that leads too deep', () => {
    const name = (index: number): string => `l${String(index).padStart(4, '0')}`;
    const lessons = Array.from({ length: 1000 }, (_, index): [string, string] => [
      `lessons/${name(index)}.mdx`,
      lesson(tab(`id: a\n${index === 999 ? '4 =3' : `<${name(index + 1)}/a>`}`)),
    ]);
    const problems = problemsOf(
      loadCourse(courseOf({ ...Object.fromEntries(lessons), 'lessons/first.mdx': lesson() })),
    );
    const deep = problems.filter(({ code }) => code === 'quote-too-deep');
    expect(deep).toHaveLength(949);
    expect(deep[0]).toMatchObject({ file: 'lessons/l0000.mdx', line: 8, column: 1 });
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual(deep);
  });

  test('says which way a cycle of quotations goes round, at the quotation', () => {
    const dir = courseOf({
      'lessons/a.mdx': lesson(tab('id: one\n<b/two>')),
      'lessons/b.mdx': lesson(tab('id: two\n4 4 4 4 | <c/three>')),
      'lessons/c.mdx': lesson(tab('id: three\n<a/one>')),
      'lessons/d.mdx': lesson(tab('id: four\n<a/one>')),
    });
    const problems = problemsOf(loadCourse(dir));
    expect(
      problems.map(({ file, line, column, code, message }) => [`${file}:${line}:${column}`, code, message]),
    ).toEqual([
      ['lessons/a.mdx:8:1', 'quote-cycle', expect.stringContaining('→')],
      ['lessons/b.mdx:8:11', 'quote-cycle', expect.stringContaining('→')],
      ['lessons/c.mdx:8:1', 'quote-cycle', expect.stringContaining('→')],
      ['lessons/d.mdx:8:1', 'quote-broken', expect.any(String)],
    ]);
  });

  test('reads phrases that two lessons quote of each other, though neither lesson can then come first', () => {
    const dir = courseOf({
      'lessons/a.mdx': lesson(tab('id: one\nphrase p: 4 4\n<p> <b/two:q>')),
      'lessons/b.mdx': lesson(tab('id: two\nphrase q: 5 5\n<q> <a/one:p>')),
    });
    expect(codes(loadCourse(dir))).toEqual(['lessons/a.mdx:9 path-cycle']);
  });

  test('names the nearest lesson and block of a quotation that leads nowhere', () => {
    const dir = courseOf({
      'lessons/riffs.mdx': lesson(tab('id: answer\n4 4 4 4')),
      'lessons/solo.mdx': lesson(`${tab('<rifs/answer>')}\n${tab('<riffs/anwser>')}`),
    });
    const problems = problemsOf(loadCourse(dir));
    expect(problems.map(({ help }) => help)).toEqual(['Did you mean “riffs”?', 'Did you mean “<riffs/answer>”?']);
  });

  test('quotes blocks of the same lesson without its name, and needs no other lesson for that', () => {
    const music = `${tab('id: answer\nphrase turn: 4 5\n4 4 4 4')}\n${tab('<:answer> | <answer:turn> .2')}\n${tab('<turn> .4')}`;
    const dir = courseOf({ 'lessons/riffs.mdx': lesson(music), 'lessons/solo.mdx': lesson(tab('<riffs/answer>')) });
    const course = loadCourse(dir);
    expect(problemsOf(course).map(({ code, help }) => [code, help])).toEqual([
      ['quote-unknown', 'Did you mean “<answer:turn>”?'],
    ]);
    const quotes = ['riffs', 'solo']
      .flatMap((id) => course.byId.get(id) ?? [])
      .map(({ blocks }) => blocks.flatMap((block) => block.quotes.map((own) => `${own.lesson}/${own.block}`)));
    expect(quotes).toEqual([['riffs/answer'], ['riffs/answer']]);
    expect(course.byId.get('riffs')?.blocks[1]?.score?.bars.length).toBe(2);
  });

  test('finds every problem of every block, those behind a mistake of MDX included', () => {
    const bad = tab("4 4 4 -2''' | 11 4 4 4");
    const dir = courseOf({ 'lessons/a.mdx': lesson(`<Clip>\n\n${bad}\n`), 'lessons/b.mdx': lesson(`${bad}\n${bad}`) });
    expect(codes(loadCourse(dir))).toEqual([
      'lessons/a.mdx:5 mdx-syntax',
      'lessons/a.mdx:9 bend-too-deep',
      'lessons/a.mdx:9 no-hole',
      'lessons/b.mdx:7 bend-too-deep',
      'lessons/b.mdx:7 no-hole',
      'lessons/b.mdx:12 bend-too-deep',
      'lessons/b.mdx:12 no-hole',
    ]);
  });

  test('continues with what is right in a file where something is wrong', () => {
    const dir = courseOf({
      'course.yaml': 'title: A course\ntempo: fast\nposition: 3\nstages: [{id: one, title: One}]\n',
      'lessons/a.mdx': lesson('', 'title: A\nminutes: many\nstage: one'),
    });
    const course = loadCourse(dir);
    expect(codes(course)).toEqual(['course.yaml:2 value-wrong', 'lessons/a.mdx:3 value-wrong']);
    expect(course.defaults.position).toBe(3);
    expect(course.byId.get('a')?.frontMatter).toMatchObject({ title: 'A', stage: 'one' });
  });

  test('does not say what a lesson’s way lacks while part of the way is missing', () => {
    const bend = tab("-4' -4' 4 4");
    const course = (requires: string): Course =>
      loadCourse(
        courseOf({
          'lessons/bends.mdx': lesson(bend, 'title: Bends\nteaches: [draw-bends]'),
          'lessons/next.mdx': lesson('', `title: Next\nrequires: ${requires}`),
          'lessons/tune.mdx': lesson(bend, 'title: Tune\nrequires: next'),
        }),
      );
    const about = (found: Course): string[] => codes(found).filter((one) => one.startsWith('lessons/tune'));
    expect(about(course('first'))).toContain('lessons/tune.mdx:8 used-before-taught');
    expect(about(course('bneds'))).toEqual([]);
    expect(codes(course('bneds'))).toContain('lessons/next.mdx:3 requires-unknown');
    expect(about(course('bends'))).not.toContain('lessons/tune.mdx:8 used-before-taught');
  });

  test('reads Windows line ends and a byte order mark like any others', () => {
    const text = `\ufeff${lesson(`${tab("id: a\n4 4 4 -2'''")}\n[x](nowhere)\n`)}`.replaceAll('\n', '\r\n');
    const problems = problemsOf(
      loadCourse(courseOf({ 'lessons/a.mdx': text, 'course.yaml': '\ufefftitle: A\r\nharp: A\r\n' })),
    );
    expect(problems.map(({ line, column, code }) => `${line}:${column} ${code}`)).toEqual([
      '8:7 bend-too-deep',
      '11:5 link-unknown',
    ]);
  });

  test('names a block of a megabyte and reads the rest', () => {
    const dir = courseOf({ 'lessons/a.mdx': lesson(`${tab('4 '.repeat(500_000))}\n${tab('11 4 4 4')}`) });
    expect(codes(loadCourse(dir))).toEqual(['lessons/a.mdx:6 block-too-long', 'lessons/a.mdx:12 no-hole']);
  });

  test('is reported in the order of files, lines and columns', () => {
    const wrong = '[a](x) [b](y)\n\n[c](w)\n';
    const problems = problemsOf(
      loadCourse(courseOf({ 'lessons/b.mdx': lesson(wrong), 'lessons/a/z.mdx': lesson(wrong) })),
    );
    const places = problems.map(({ file, line, column }) => `${file}:${line}:${column}`);
    expect(places).toEqual(['a/z', 'b'].flatMap((id) => ['5:5', '5:12', '7:5'].map((at) => `lessons/${id}.mdx:${at}`)));
  });
});

describe('loading again', () => {
  const files = {
    'course.yaml': 'title: A course\n',
    'lessons/a.mdx': lesson(`${tab('id: one\n4 4 4 4')}\n${tab('id: two\n5 5 5 5')}`),
    'lessons/b.mdx': lesson(tab('id: b\n<a/one>')),
    'lessons/c.mdx': lesson(tab('id: c\n<b/b>')),
    'lessons/d.mdx': lesson(tab('id: d\n<gone/x>')),
  };
  const blocks = (course: Course) =>
    new Map(course.lessons.flatMap((one) => one.blocks.map((block) => [`${one.id}/${block.id}`, block])));
  const reread = (dir: string, before: Course): { after: Course; same: string[] } => {
    const after = loadCourse(dir, before);
    const [old, now] = [blocks(before), blocks(after)];
    // What was taken over makes no difference to the result.
    const { memory: _, ...whole } = loadCourse(dir);
    const { memory: __, ...again } = after;
    expect(again).toEqual(whole);
    return {
      after,
      same: [...now]
        .filter(([name, block]) => old.get(name) === block)
        .map(([name]) => name)
        .sort(),
    };
  };

  test('takes over every block if nothing has changed', () => {
    const dir = folderOf(files);
    const before = loadCourse(dir);
    expect(reread(dir, before).same).toEqual(['a/one', 'a/two', 'b/b', 'c/c']);
  });

  test('reads again what changed and what quotes it, near and far', () => {
    const dir = folderOf(files);
    const before = loadCourse(dir);
    write(dir, 'lessons/a.mdx', files['lessons/a.mdx'].replace('4 4 4 4', '6 6 6 6'));
    const { after, same } = reread(dir, before);
    expect(same).toEqual([]);
    const [event] = after.byId.get('c')?.blocks[0]?.score?.bars[0]?.events ?? [];
    expect(event).toMatchObject({ notes: [{ hole: 6 }] });
  });

  test('leaves alone what neither changed nor quotes it', () => {
    const dir = folderOf(files);
    const before = loadCourse(dir);
    write(dir, 'lessons/c.mdx', lesson(tab('id: c\n<b/b> | 4 4 4 4')));
    expect(reread(dir, before).same).toEqual(['a/one', 'a/two', 'b/b']);
  });

  test('reads everything again under other settings of the course', () => {
    const dir = folderOf(files);
    const before = loadCourse(dir);
    write(dir, 'course.yaml', 'title: A course\nharp: A\n');
    const { after, same } = reread(dir, before);
    expect(same).toEqual([]);
    expect(after.byId.get('a')?.blocks[0]?.score?.harp.key.letter).toBe('A');
  });

  test('notices lessons that come and go', () => {
    const dir = folderOf(files);
    const before = loadCourse(dir);
    write(dir, 'lessons/gone.mdx', lesson(tab('id: x\n7 7 7 7')));
    const { after } = reread(dir, before);
    expect(after.byId.get('d')?.blocks[0]?.score).toBeDefined();
    unlinkSync(join(dir, 'lessons/gone.mdx'));
    expect(codes(reread(dir, after).after)).toEqual(codes(before));
  });
});
