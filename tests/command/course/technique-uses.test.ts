import { describe, expect, test } from 'vitest';
import { courseOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

const block = (id: string, music: string): string => `\`\`\`tab\nid: ${id}\nslot: 1/4\n${music}\n\`\`\`\n`;
const some = () =>
  courseOf({
    'lessons/bends.mdx': lesson(
      `${block('plain', '4 4 4 4')}\n${block('licks', "4 -4' -4 4 | 4 -4' -4' 4")}`,
      'title: Bends\nteaches: [draw-4-half-step]\nrequires: first',
    ),
    'lessons/riff.mdx': lesson(block('riff', "-4' -4 4 4"), 'title: Riff\nrequires: bends'),
  });
const SEE = 'reedway techniques --help shows what it takes.\n';

describe('reedway techniques ID', () => {
  test('lists all uses of a technique, with file, line and bars', async () => {
    const dir = some();
    expect(await typed(['techniques', 'draw-4-half-step'], dir)).toEqual({
      code: 0,
      out: `draw-4-half-step (Draw 4 bent a half step): taught in bends

lessons/bends.mdx:13  bends/licks, difficulty 1.9
    Bar 1: -4'. Bar 2: -4', -4'.
lessons/riff.mdx:6  riff/riff, difficulty 1.6
    Bar 1: -4'.

Used in 2 blocks of 2 lessons.
`,
      err: '',
    });
    expect((await typed(['techniques', 'overblows'], dir)).out).toBe(
      'overblows (Overblows)\n\nNo block of this course uses it.\n',
    );
  });

  test('prints the same as data', async () => {
    const { out } = await typed(['techniques', 'draw-4-half-step', '--json'], some());
    const { uses, ...head } = JSON.parse(out);
    expect(head).toEqual({ id: 'draw-4-half-step', title: 'Draw 4 bent a half step', taughtIn: ['bends'] });
    expect(uses[1]).toEqual({
      lesson: 'riff',
      block: 'riff',
      index: 0,
      file: 'lessons/riff.mdx',
      line: 6,
      difficulty: 1.6,
      places: [{ bar: 1, at: 0, events: [0], notes: "-4'" }],
    });
  });

  test('is a lesson where both have the name, and says how to ask for the technique', async () => {
    const dir = some();
    const { code, out, err } = await typed(['techniques', 'bends'], dir);
    expect([code, err]).toEqual([
      0,
      'bends is a lesson and a technique. This is the lesson; --uses bends lists the uses of the technique.\n',
    ]);
    expect(out).toMatch(/^bends\/plain \(block 0\)/);
    expect((await typed(['techniques', '--uses', 'bends'], dir)).out).toMatch(/^bends \(/);
  });

  test.each([
    [['overblow'], 'There is no lesson or technique “overblow”. Did you mean overblows?'],
    [['rif'], 'There is no lesson or technique “rif”. Did you mean riff?'],
    [['rif/0'], 'There is no lesson “rif”. Did you mean riff?'],
    [['--uses', 'overblow'], 'There is no technique “overblow”. Did you mean overblows?'],
    [['riff', '--uses', 'bends'], '“riff” is one argument too many: --uses names the technique.'],
    [['--words', '--uses', 'bends'], '--words cannot be combined with other arguments.'],
  ])('refuses %j', async (line, why) => {
    expect(await typed(['techniques', ...line], some())).toEqual({ code: 2, out: '', err: `${why}\n${SEE}` });
  });
});
