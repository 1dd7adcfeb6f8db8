import { posix } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ALL_PROBLEMS } from '../../../src/course/catalogue.ts';
import { type Named, ownName, wholeName } from '../../../src/course/rename/name.ts';
import { fileChanges, HIDING } from '../../../src/course/rename/plan.ts';
import { withoutEdit } from '../../../src/course/rename/verify.ts';
import { alsoLong } from '../../setup/long.ts';
import {
  awkward,
  bytesOf,
  demo,
  type Loaded,
  ownNames,
  planOf,
  renamedBack,
  wrongAfter,
  wrongAgain,
} from './renamed.ts';

/** New names: longer by the old one's, and for a lesson also in another folder. */
const newNames = (named: Named): string[] => [
  `${ownName(named)}-x`,
  ...(named.kind === 'lesson' ? alsoLong(['deep/other'], ['far/away/from-here', 'other']) : []),
];

/** In the short run one name of so many. */
const everyOther =
  (step: number) =>
  (names: Named[]): readonly Named[] =>
    alsoLong(
      names.filter((_, index) => index % step === step - 1),
      names.filter((_, index) => index % step !== step - 1),
    );

describe.each([
  ['the awkward course', awkward, everyOther(4)],
  ['the demo course', demo, everyOther(100)],
] as const)('in %s', (_, load, chosen) => {
  const before: Loaded = load();
  const names = chosen(ownNames(before));

  test('nothing is wrong', () => {
    expect(before.course.problems).toEqual([]);
  });

  test.each(names.map((one) => [`${one.kind} ${wholeName(one)}`, one] as const))('%s', (_name, one) => {
    for (const name of newNames(one)) {
      const plan = planOf(before, one, name);
      expect(wrongAfter(before, plan, plan.changes)).toEqual([]);
      for (const { file, edits } of plan.changes)
        for (const [index, edit] of edits.entries()) {
          if (plan.unchecked.includes(edit)) continue;
          expect([file, edit, wrongAfter(before, plan, withoutEdit(plan.changes, file, index))]).not.toEqual([
            file,
            edit,
            [],
          ]);
        }
      const back = renamedBack(before, plan, one);
      // From another folder a path comes back with or without its dots, whichever they were.
      if (posix.dirname(name) === posix.dirname(ownName(one))) expect(back).toEqual(bytesOf(before));
      else expect(wrongAgain(before, back)).toEqual([]);
    }
  });
});

test.each<[Named, string, string]>([
  [{ kind: 'block', lesson: 'walk', block: 'walk' }, 'stroll', '[played](walk?bars=1&tempo=50%#stroll)'],
  [{ kind: 'lesson', lesson: 'walk' }, 'stroll', '[played](stroll?bars=1&tempo=50%#walk)'],
])('a link to bars keeps what it asks for: %j', (named, name, link) => {
  const before = awkward();
  const changes = fileChanges(before.files, planOf(before, named, name).changes);
  expect(changes.find(({ file }) => file === 'lessons/walk-on.mdx')?.after?.toString()).toContain(link);
});

test('errors that may hide names are errors that there are', () => {
  for (const code of HIDING) expect(ALL_PROBLEMS).toHaveProperty(code);
});
