import { expect, test } from 'vitest';
import { type ListedFile, problemList } from '../../../src/site/authoring/problem-list.ts';
import { courseInMemory } from '../../course/files-in-memory.ts';
import { lesson } from '../../course/some-course.ts';

const MANY = Array.from({ length: 30 }, (_, index) => `[a](nowhere-${index})`).join('\n');
const course = courseInMemory({
  'course.yaml': 'title: A course\nsumary: B\n',
  // The hints and warnings of the head come before the errors below it.
  'lessons/first.mdx': lesson(`${MANY}\n\n\`\`\`tab\nslot: 1/4\n4 5 6 77\n\`\`\`\n`, 'title: First\nteaches: [bend]'),
  'lessons/quiet.mdx': lesson("Hello.\n\n```tab\nslot: 1/4\n-3' 5 6 7\n```\n", 'title: Quiet\nrequires: [first]'),
  'lessons/second.mdx': lesson(`${MANY}\n`, 'title: Second\nrequires: [first]'),
});
const total = ({ counts }: Pick<ListedFile, 'counts'>): number => counts.error + counts.warning + counts.hint;
const severities = ({ shown }: ListedFile): string[] => [...new Set(shown.map(({ problem }) => problem.severity))];

test('the problems of the page’s own lesson come first, all of them, errors before warnings before hints', () => {
  const { own, others, counts } = problemList(course, 'lessons/first/');
  expect(own?.file).toBe('lessons/first.mdx');
  expect(own?.shown.length).toBe(own && total(own));
  expect(own?.shown.length).toBeGreaterThan(30);
  expect(own?.more).toBe(0);
  const order = ['error', 'warning', 'hint'];
  expect(own && severities(own)).toEqual(order.filter((one) => own && severities(own).includes(one)));
  expect(own?.shown.map(({ problem }) => problem.code)).toContain('no-hole');
  expect(others.map(({ file }) => file)).not.toContain('lessons/first.mdx');
  expect(total({ counts })).toBe(course.problems.length);
});

test('other files are counted and shown in part, those with errors first', () => {
  const { others } = problemList(course, 'lessons/quiet/');
  const first = others.find(({ file }) => file === 'lessons/first.mdx');
  expect(first?.shown).toHaveLength(20);
  expect((first?.shown.length ?? 0) + (first?.more ?? 0)).toBe(first && total(first));
  const withErrors = others.map(({ counts }) => counts.error > 0);
  expect(withErrors).toEqual(withErrors.toSorted((a, b) => Number(b) - Number(a)));
});

test.each([
  ['', 'course.yaml'],
  ['lessons/second/', 'lessons/second.mdx'],
  ['harps/', undefined],
  [undefined, undefined],
])('the own file of the page %s is %s', (path, file) => {
  expect(problemList(course, path).own?.file).toBe(file);
});

test('a problem has its place with the line of its file, and its sentences', () => {
  const { own } = problemList(course, 'lessons/first/');
  const found = own?.shown.find(({ problem }) => problem.code === 'no-hole');
  expect(found?.place).toMatch(/^lessons\/first\.mdx:\d+:7 {2}no-hole\n *\d+ \| 4 5 6 77\n +\| {7}\^\^$/);
  expect(found?.said).toEqual(['There is no hole 77 on a harp of 10 holes.', 'Hole 7 twice is 7 7']);
});

test('a course without problems has an empty list', () => {
  expect(problemList({ ...course, problems: [] }, '')).toEqual({
    counts: { error: 0, warning: 0, hint: 0 },
    own: undefined,
    others: [],
  });
});
