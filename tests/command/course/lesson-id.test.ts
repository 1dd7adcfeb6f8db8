import { expect, test } from 'vitest';
import { lessonIdFrom } from '../../../src/command/course/lesson-id.ts';
import { courseOf, lesson } from '../../course/some-course.ts';
import { typed } from '../some-terminal.ts';

test.each([
  ['walk', 'walk'],
  ['blues/walk', 'blues/walk'],
  ['blues\\walk', 'blues/walk'],
  ['lessons/walk.mdx', 'walk'],
  ['.\\lessons\\walk.mdx', 'walk'],
  ['./lessons/blues/walk.mdx', 'blues/walk'],
  ['.\\walk.mdx', 'walk'],
  ['C:\\course\\lessons\\blues\\walk.mdx', 'blues/walk'],
  ['C:/course/lessons/walk.mdx', 'walk'],
  ['/home/ada/my course/lessons/walk.mdx', 'walk'],
  ['..\\my-course\\lessons\\walk.mdx', 'walk'],
  ['lessons\\walk.mdx\\up', 'walk/up'],
  ['walk\\up', 'walk/up'],
  ['walk/0', 'walk/0'],
  // A folder of lessons may be called so.
  ['more/lessons/walk', 'more/lessons/walk'],
])('%s is %s', (written, id) => {
  expect(lessonIdFrom(written)).toBe(id);
});

test('commands understand references as Windows writes them', async () => {
  const block = '```tab\nid: up\nslot: 1/4\n4 -4 5 -5\n```\n';
  const dir = courseOf({ 'lessons/blues/walk.mdx': lesson(block, 'title: Walk\nrequires: first') });
  const wanted = await typed(['show', 'blues/walk/up'], dir);
  expect(wanted.code).toBe(0);
  for (const name of ['blues\\walk\\up', '.\\lessons\\blues\\walk.mdx', '.\\lessons\\blues\\walk.mdx\\up'])
    expect(await typed(['show', name], dir)).toEqual(wanted);
  expect((await typed(['techniques', 'lessons\\blues\\walk.mdx'], dir)).out).toMatch(/^blues\/walk\/up /);
  expect((await typed(['check', '-', '--as', '.\\lessons\\blues\\walk.mdx'], dir, lesson('[x](no)'))).out).toMatch(
    /^lessons\/blues\/walk\.mdx:5:5 /,
  );
  expect((await typed(['new', 'lesson', 'Next', '--after', 'lessons\\blues\\walk.mdx'], dir)).code).toBe(0);
});
