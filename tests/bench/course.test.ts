import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { courseFiles, writeCourse } from '../../bench/course.ts';
import { slotsOf } from '../../bench/music.ts';
import { loadCourse } from '../../src/course/load.ts';
import { checkPath } from '../../src/curriculum/check.ts';
import { curriculumOf } from '../../src/curriculum/curriculum.ts';
import { surveyor } from '../../src/curriculum/survey.ts';
import { SHIPPED_REPERTOIRE } from '../../src/technique/repertoire.ts';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});
const made = (...size: Parameters<typeof writeCourse> extends [string, infer Size] ? [Size] : never): string => {
  const folder = mkdtempSync(join(tmpdir(), 'course-'));
  folders.push(folder);
  writeCourse(folder, ...size);
  return folder;
};

test.each([1, 2, 3, 4, 5, 6])('a made-up course has nothing wrong with it (seed %i)', (seed) => {
  const course = loadCourse(made({ lessons: 40, blocks: 6, words: 60, seed }));
  expect(course.problems).toEqual([]);
  expect(course.lessons.map((lesson) => lesson.blocks.length)).toEqual(Array(40).fill(6));
  expect(course.lessons.every((lesson) => lesson.blocks.every((block) => block.score !== undefined))).toBe(true);
});

test('teaches everything before it is used', () => {
  const course = loadCourse(made({ lessons: 80, blocks: 6, words: 60 }));
  const survey = surveyor(SHIPPED_REPERTOIRE);
  const surveys = course.lessons.map((lesson) => survey(lesson));
  const stages = course.file.stages;
  const curriculum = curriculumOf({
    lessons: course.lessons,
    stages: stages.map(({ id }) => id),
    repertoire: SHIPPED_REPERTOIRE,
    surveys,
  });
  expect(checkPath(curriculum, stages)).toEqual([]);
});

test('the same seed makes the same course, and another seed another', () => {
  const size = { lessons: 5, blocks: 3 };
  expect(courseFiles(size)).toEqual(courseFiles({ ...size, seed: 1 }));
  const [one, other] = [courseFiles(size), courseFiles({ ...size, seed: 2 })];
  expect([...one.keys()]).toEqual([...other.keys()]);
  for (const file of [...one.keys()].filter((name) => name.endsWith('.mdx')))
    expect(one.get(file)).not.toBe(other.get(file));
});

test('a smaller course is the beginning of a larger one', () => {
  const [small, large] = [courseFiles({ lessons: 20, blocks: 2 }), courseFiles({ lessons: 30, blocks: 2 })];
  for (const [file, text] of small) if (file.endsWith('.mdx')) expect(large.get(file)).toBe(text);
  expect(large.size).toBe(small.size + 10);
});

test('lessons hold about as many words as asked for', () => {
  const folder = made({ lessons: 3, blocks: 6, words: 600 });
  for (const name of ['lesson-0001', 'lesson-0002', 'lesson-0003']) {
    const text = readFileSync(join(folder, 'lessons', `${name}.mdx`), 'utf8');
    const words = text
      .replace(/^---[\s\S]*?\n---|```tab[\s\S]*?```/g, '')
      .split(/\s+/)
      .filter(Boolean).length;
    expect(words).toBeGreaterThan(550);
    expect(words).toBeLessThan(950);
  }
});

test('has of everything that can be in a block', () => {
  const text = [...courseFiles({ lessons: 120, blocks: 6, words: 60 }).values()].join('\n');
  const parts = {
    bends: /-3''/,
    glides: /'> -/,
    splits: /\(1 4\)\[tongue\]/,
    groups: /\{-?\d[^}]*\}2/,
    ties: /\| =/,
    forms: /^form: twelve-bar$/m,
    'lists of chords': /^chords: .*IV7/m,
    'chord symbols': /"I7" /,
    'own phrases': /<call>/,
    'phrases of other lessons': /<lesson-\d+\/block-\d:\w+>/,
    'blocks of other lessons': /<lesson-\d+\/block-\d>/,
    parts: /^part: Head$/m,
    repeats: /\|: .* :\|/,
    endings: /\|1 .* :\|2 /,
    pickups: /^pickup: 1$/m,
    lyrics: /^words: /m,
    embouchures: /@tongue/,
    marks: /\[shake 5\]/,
    overblows: /6o/,
    'low harps': /^harp: low F$/m,
    'compound meters': /^meter: 12\/8$/m,
    positions: /^position: 3$/m,
  };
  expect(Object.entries(parts).flatMap(([name, pattern]) => (pattern.test(text) ? [] : [name]))).toEqual([]);
});

test.each([
  ['4 -4 5', 3],
  ["-3'> -3", 2],
  ['(1 2 3) -(1 2 3)', 2],
  ['{4 -4}', 1],
  ['{-4 4 -3}2', 2],
  ['-4[shake 5] =', 2],
  ['@tongue 4 -4 @lips 5', 3],
  ["6o 10'' =3 .2", 7],
])('%s takes %i slots', (text, slots) => {
  expect(slotsOf(text)).toBe(slots);
});
