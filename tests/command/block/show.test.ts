import { describe, expect, test } from 'vitest';
import { courseOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const course = () =>
  courseOf({
    'course.yaml': 'title: A course\nharp: A\nposition: 2\n',
    'lessons/riffs.mdx': lesson('```tab\nid: answer\nslot: 1/4\nphrase turn: -2 -3\n<turn> 4 .\n```\n'),
    'lessons/blues/head.mdx': lesson(
      [
        '```tab',
        'title: The head',
        'slot: 1/8',
        'chords: I7 | IV7 V7',
        'pickup: 1',
        "-2 |: @tongue -(1 4) = {-3'> -3 4} -4[shake 5 accent] . 4 = = | . .3 4 = = :|",
        'words: Oh my',
        '```',
        '',
        '```tab',
        '<riffs/answer:turn> 4 4',
        '```',
        '',
        '```tab',
        '11',
        '```',
      ].join('\n'),
      'title: Head\nmeter: 4/4\nslot: 1/4',
    ),
  });

describe('reedway show', () => {
  test('prints a block note by note', async () => {
    const dir = courseOf({
      'course.yaml': 'title: A course\nharp: A\nposition: 2\n',
      'lessons/first.mdx': lesson(
        [
          '```tab',
          'id: one',
          'title: The one',
          'chords: I7 | I7',
          "-2 = {-3'> -3 4} -4[shake 5 accent] . @tongue -(1 4) = =",
          'words: Oh my',
          '| 4 .7 |]',
          '```',
        ].join('\n'),
      ),
    });
    const { code, out, err } = await typed(['show', 'first/one', '--course', dir]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toBe(
      [
        'first/one (block 0): The one',
        'A harp, Richter, position 2, E major, 4/4 at 80, straight, slots of 1/8',
        '',
        '  onset  length  tab     pitch  MIDI   chord  role  mouth   marks',
        'Bar 1, length 1',
        '  0      1/4     -2      E4     64     I7 E7  R     lips    “Oh”',
        "  1/4    1/24    -3'     G4     67     I7 E7  ♭3    lips    glides on, “my”",
        '  7/24   1/24    -3      G#4    68     I7 E7  3     lips',
        '  1/3    1/24    4       A4     69     I7 E7  4     lips',
        '  3/8    1/8     -4      B4     71     I7 E7  5     lips    shake 5, accent',
        '  1/2    1/8     rest',
        '  5/8    3/8     -(1 4)  B3 B4  59 71  I7 E7  5 5   tongue',
        'Bar 2, length 1, final bar line',
        '  0      1/8     4       A4     69     I7 E7  4     tongue',
        '  1/8    7/8     rest',
        '',
      ].join('\n'),
    );
  });

  test('prints a block as data', async () => {
    const { code, out } = await typed(['show', 'blues/head/0', '--json', '--course', course()]);
    expect(code).toBe(0);
    const [block] = JSON.parse(out);
    expect(block).toMatchObject({
      lesson: 'blues/head',
      block: '0',
      index: 0,
      score: {
        title: 'The head',
        harp: 'A',
        tuning: 'richter',
        position: 2,
        key: 'E major',
        meter: '4/4',
        feel: 'straight',
        slot: '1/8',
        pickup: '1/8',
      },
    });
    const [pickup, bar] = block.score.bars;
    expect(pickup).toMatchObject({ number: 0, length: '1/8', chords: [], repeatStart: false });
    expect(bar).toMatchObject({
      number: 1,
      length: '1',
      repeatStart: true,
      chords: [{ onset: '0', chord: 'E7', numeral: 'I7' }],
    });
    expect(bar.events[1]).toEqual({
      index: 2,
      kind: 'sound',
      onset: '1/4',
      duration: '1/24',
      breath: 'draw',
      chord: 'E7',
      notes: [{ hole: 3, bend: 1, over: false, slide: false, pitch: 'G4', midi: 67, role: '♭3' }],
      tied: false,
      glides: true,
      embouchure: 'tongue',
      marks: [],
      lyric: null,
      lyrics: [],
      syllable: null,
      quoted: null,
    });
    expect(bar.events[4]).toMatchObject({ marks: ['shake 5', 'accent'] });
    expect(bar.events[5]).toEqual({ index: 6, kind: 'rest', onset: '1/2', duration: '1/8' });
  });

  test('takes a whole lesson, a block by its number, and the file’s name', async () => {
    const dir = course();
    const shown = async (name: string): Promise<string[]> =>
      JSON.parse((await typed(['show', name, '--json', '--course', dir])).out).map(
        ({ lesson, block }: { lesson: string; block: string }) => `${lesson}/${block}`,
      );
    expect(await shown('blues/head')).toEqual(['blues/head/0', 'blues/head/1', 'blues/head/2']);
    expect(await shown('riffs/0')).toEqual(['riffs/answer']);
    expect(await shown('lessons/riffs.mdx')).toEqual(['riffs/answer']);
  });

  test('says where a quoted note comes from', async () => {
    const { out } = await typed(['show', 'blues/head/1', '--course', course()]);
    expect(out).toContain('from riffs/answer:turn');
  });

  test('prints what is wrong with a block instead', async () => {
    const { code, out, err } = await typed(['show', 'blues/head/2', '--course', course()]);
    expect(code).toBe(1);
    expect(out).toBe('blues/head/2\nThis block has an error.\n');
    expect(err).toContain('no-hole');
  });

  test('says so where a lesson has no block', async () => {
    const { code, out } = await typed(['show', 'first', '--course', courseOf()]);
    expect([code, out]).toEqual([0, 'first has no block.\n']);
  });

  test.each([
    ['rifs', 'There is no lesson “rifs”. Did you mean riffs?'],
    ['riffs/anwser', 'There is no block of riffs “anwser”. Did you mean answer?'],
    ['riffs/7', 'There is no block of riffs “7”.'],
    ['nothing/at/all', 'There is no lesson “nothing/at”.'],
  ])('knows no %s', async (name, says) => {
    const { code, err } = await typed(['show', name, '--course', course()]);
    expect([code, err.split('\n')[0]]).toEqual([2, says]);
  });

  test('says what a lesson or a block is called now', async () => {
    const dir = courseOf({
      'lessons/first.mdx': lesson('```tab\nid: walk\nformerly: stroll\n.8\n```\n', 'title: First\nformerly: one'),
    });
    const said = async (name: string) => (await typed(['show', name, '--course', dir])).err.split('\n')[0];
    expect(await said('one')).toBe('There is no lesson “one”. It is called first now.');
    expect(await said('first/stroll')).toBe('There is no block of first “stroll”. It is called walk now.');
  });
});
