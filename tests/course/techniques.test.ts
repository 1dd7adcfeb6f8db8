import { describe, expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { stepOf } from '../../src/curriculum/curriculum.ts';
import { PATH_PROBLEMS } from '../../src/curriculum/problems.ts';
import { DOCUMENT_PROBLEMS } from '../../src/document/problems.ts';
import { TECHNIQUE_PROBLEMS } from '../../src/technique/problems.ts';
import { ownProblems } from './own-problems.ts';
import { courseOf, lesson } from './some-course.ts';

const TAB = '```tab\nslot: 1/4\n(1 2 3) (1 2 3) . .\n```\n';
const SOUND = `techniques:
  - id: train
    title: The train
    about: Chords in turn.
    group: breath
    find:
      note: { holes: 3 }
      between: { breath: same }
      run: 2
`;

/** What is wrong with a techniques file, as `line:column code: message`. */
function problems(techniques: string, frontMatter = 'title: A lesson\nteaches: train'): string[] {
  const dir = courseOf({ 'techniques.yaml': techniques, 'lessons/first.mdx': lesson(TAB, frontMatter) });
  return ownProblems(loadCourse(dir).problems, TECHNIQUE_PROBLEMS, DOCUMENT_PROBLEMS, PATH_PROBLEMS).map(
    ({ file, line, column, code, message }) => `${file} ${line}:${column} ${code}: ${message}`,
  );
}

describe('techniques.yaml', () => {
  test('adds techniques that lessons teach and blocks use', () => {
    expect(problems(SOUND)).toEqual([]);
    const dir = courseOf({
      'techniques.yaml': SOUND,
      'lessons/first.mdx': lesson(TAB, 'title: A lesson\nteaches: train'),
    });
    const { path, repertoire } = loadCourse(dir);
    expect(repertoire.byId.get('train')?.title).toBe('The train');
    expect(stepOf(path, 'first').survey[0]?.found.some(({ technique }) => technique.id === 'train')).toBe(true);
  });

  test('may be alone', () => {
    const alone = `catalogue: replace\n${SOUND}`;
    expect(problems(alone)).toEqual([]);
    expect(problems(alone, 'title: A lesson\nteaches: [train, chords]')).toEqual([
      'lessons/first.mdx 3:18 teaches-unknown: There is no technique “chords” to teach.',
    ]);
  });

  test('reports what is wrong with it at the line, and keeps the rest', () => {
    expect(problems(SOUND.replace('holes: 3', 'hoels: 3'))).toEqual([
      'techniques.yaml 7:15 key-unknown: There is no key “hoels” here.',
    ]);
    expect(problems(SOUND.replace('run: 2', 'run: one'))).toEqual([
      'techniques.yaml 9:12 value-wrong: “run” is a whole number from 2 to 999, not “one”.',
    ]);
    expect(problems(SOUND.replace('    about: Chords in turn.\n', ''))).toEqual([
      'techniques.yaml 2:9 technique-incomplete: The technique “train” is new, and has no about.',
    ]);
    expect(problems(SOUND.replace('same', 'turns'))).toEqual([
      'techniques.yaml 8:26 value-wrong: “breath” is one of same, changes, not “turns”.',
    ]);
    expect(problems(`${SOUND}  - id: train\n    title: Again\n`)).toEqual([
      'techniques.yaml 10:9 technique-twice: There is a technique “train” above already.',
    ]);
    expect(problems(SOUND.replace('group: breath', 'group: breath\n    requires: [chords, choords]'))).toEqual([
      'techniques.yaml 6:24 technique-unknown: There is no technique “choords”.',
    ]);
    expect(problems(SOUND.replace('group: breath', 'group: breath\n    kind-of: train'))).toEqual([
      'techniques.yaml 6:14 technique-cycle: These techniques are kinds of each other in a cycle: train → train.',
    ]);
    expect(problems(`${SOUND}  - nothing\n`).map((one) => one.replace(/:.*/, ''))).toEqual(['techniques.yaml 10']);
    // What lessons teach may be in what cannot be read.
    expect(problems('techniques: [').map((one) => one.replace(/:.*/, ''))).toEqual([
      expect.stringMatching(/^techniques\.yaml \d+$/),
    ]);
  });

  test('changes of a shipped technique what it writes', () => {
    const dir = courseOf({
      'techniques.yaml': 'techniques:\n  - id: chords\n    assumed: false\n',
      'lessons/first.mdx': lesson(TAB, 'title: A lesson\nteaches: breath-turns'),
    });
    // Taken for granted as it ships, chords are now to be taught.
    expect(loadCourse(dir).problems.map(({ code }) => code)).toContain('never-taught');
  });

  test('is read again only when it has changed', () => {
    const dir = courseOf({ 'techniques.yaml': SOUND, 'lessons/first.mdx': lesson(TAB) });
    const first = loadCourse(dir);
    const again = loadCourse(dir, first);
    expect(again.repertoire).toBe(first.repertoire);
    expect(stepOf(again.path, 'first').survey[0]).toBe(stepOf(first.path, 'first').survey[0]);
  });
});
