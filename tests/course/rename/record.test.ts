import { describe, expect, test } from 'vitest';
import { loadFrom } from '../../../src/course/load.ts';
import { readOldName } from '../../../src/course/rename/name.ts';
import { courseAfter } from '../../../src/course/rename/verify.ts';
import { type FileTable, filesInMemory } from '../files-in-memory.ts';
import { lesson } from '../some-course.ts';
import { loaded, planOf } from './renamed.ts';

/** Files after a rename of something in a course with one lesson. */
function renamedIn(table: FileTable, old: string, name: string): Record<string, string> {
  const before = loaded(filesInMemory(table));
  expect(before.course.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const read = readOldName(before.course, old, undefined);
  if ('fault' in read) throw new Error(read.fault);
  const { changes } = planOf(before, read.named, name);
  const made: Record<string, string> = Object.fromEntries(
    Object.entries(table).map(([file, text]) => [file, String(text)]),
  );
  for (const { file, to, after: text } of changes) {
    delete made[file];
    made[to] = text;
  }
  expect(loadFrom(filesInMemory(made)).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  expect(courseAfter(before.files, before.course, changes).sources.size).toBe(before.course.sources.size);
  return made;
}

const COURSE = { 'course.yaml': 'title: A course\n' };

describe('the former name of a lesson', () => {
  const NONE = 'title: One\n';
  test.each([
    ['one: none', NONE, 'title: One\nformerly: one\n'],
    ['a single one', 'formerly: zero # so\ntitle: One\n', 'formerly: [zero, one] # so\ntitle: One\n'],
    ['quoted', 'formerly: "zero"\ntitle: One\n', 'formerly: ["zero", one]\ntitle: One\n'],
    ['a list in brackets', 'formerly: [ zero, "nil" ]\ntitle: One\n', 'formerly: [ zero, "nil", one ]\ntitle: One\n'],
    ['an empty list', 'formerly: []\ntitle: One\n', 'formerly: [one]\ntitle: One\n'],
    ['nothing', 'formerly:\ntitle: One\n', 'formerly: one\ntitle: One\n'],
    [
      'a list',
      'formerly:\n  - zero # so\n  - nil\ntitle: One\n',
      'formerly:\n  - zero # so\n  - nil\n  - one\ntitle: One\n',
    ],
    ['a list of one', 'formerly:\n-  zero # so\ntitle: One\n', 'formerly:\n-  zero # so\n-  one\ntitle: One\n'],
    ['in braces', '{ title: One, minutes: 3 }\n', '{ title: One, formerly: one, minutes: 3 }\n'],
  ])('is added to %s', (_, front, wanted) => {
    for (const end of ['\n', '\r\n']) {
      const lines = (text: string) => `---\n${text}---\n\nHello.\n`.replaceAll('\n', end);
      expect(renamedIn({ ...COURSE, 'lessons/one.mdx': lines(front) }, 'one', 'two')).toEqual({
        ...COURSE,
        'lessons/two.mdx': lines(wanted),
      });
    }
  });

  test.each([
    ['a line', 'title: One\nformerly: two\n', NONE],
    ['a list in brackets of one', 'formerly: [two]\ntitle: One\n', NONE],
    ['a list of one', 'formerly:\n  - two\ntitle: One\n', NONE],
    ['what has a comment', 'formerly: two # so\ntitle: One\n', 'formerly: [] # so\ntitle: One\n'],
    ['the first', 'formerly: [two, "zero"]\ntitle: One\n', 'formerly: ["zero"]\ntitle: One\n'],
    ['the last', 'formerly: [zero, two]\ntitle: One\n', 'formerly: [zero]\ntitle: One\n'],
    ['an item', 'formerly:\n  - two # so\n  - zero\ntitle: One\n', 'formerly:\n  - zero\ntitle: One\n'],
    ['braces', '{ title: One, formerly: two, minutes: 3 }\n', '{ title: One, minutes: 3 }\n'],
  ])('is taken out of %s', (_, front, wanted) => {
    const made = renamedIn({ ...COURSE, 'lessons/one.mdx': lesson('', front.trimEnd()) }, 'one', 'two');
    expect(made).toEqual({ ...COURSE, 'lessons/two.mdx': lesson('', wanted.trimEnd()) });
  });

  test('is not kept where only capital letters differ', () => {
    const made = renamedIn({ ...COURSE, 'lessons/One.mdx': lesson() }, 'One', 'one');
    expect(made).toEqual({ ...COURSE, 'lessons/one.mdx': lesson() });
  });
});

describe('the former name of a block', () => {
  const block = (head: string, before = '') =>
    lesson(`\`\`\`tab\n${head}slot: 1/4\n4 4 4 4\n\`\`\`\n`.replace(/^(?=.)/gm, before));
  test.each([
    ['none', 'id: one # so\n', 'id: two # so\nformerly: one\n'],
    ['a single one', 'formerly: zero # so\nid: one\n', 'formerly: zero, one # so\nid: two\n'],
    ['several', 'id: one\nformerly: zero nil\n', 'id: two\nformerly: zero nil, one\n'],
  ])('is added to %s', (_, head, wanted) => {
    for (const before of ['', '> ', '   ']) {
      const made = renamedIn({ ...COURSE, 'lessons/a.mdx': block(head, before) }, 'a/one', 'two');
      expect(made['lessons/a.mdx']).toBe(block(wanted, before));
    }
  });
  test.each([
    ['a line', 'id: one\nformerly: two # so\n', 'id: two\n'],
    ['the first', 'id: one\nformerly: two, zero\n', 'id: two\nformerly: zero\n'],
    ['the last', 'id: one\nformerly: zero two\n', 'id: two\nformerly: zero\n'],
  ])('is taken out of %s', (_, head, wanted) => {
    expect(renamedIn({ ...COURSE, 'lessons/a.mdx': block(head) }, 'a/one', 'two')['lessons/a.mdx']).toBe(block(wanted));
  });
});

test.each([
  ['- id: one # so\n    title: One', '- id: two # so\n    formerly: one\n    title: One'],
  ['- title: One\n    id: "one"', '- title: One\n    id: "two"\n    formerly: one'],
  ['- { id: one, title: One }', '- { id: two, formerly: one, title: One }'],
  ['- { title: One, id: one, formerly: [two] }', '- { title: One, id: two }'],
  ['- id: one\n    formerly: two\n    title: One', '- id: two\n    title: One'],
  ['id: one\n  title: One', 'id: two\n  formerly: one\n  title: One'],
])('the former name of a stage: %s', (stage, wanted) => {
  const course = (text: string) => `title: A course\nstages:\n  ${text}`;
  const made = renamedIn({ 'course.yaml': course(stage), 'lessons/a.mdx': lesson() }, 'one', 'two');
  expect(made['course.yaml']).toBe(course(wanted));
});
