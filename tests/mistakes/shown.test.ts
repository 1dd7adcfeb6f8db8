import { expect, test } from 'vitest';
import { lesson } from '../course/some-course.ts';
import { fixedFor, shownFor } from './shown.ts';

test('a course is shown as `check` prints it, and as `check --fix` leaves it', () => {
  const files = { 'lessons/first.mdx': lesson('#One\n') };
  expect(shownFor(files)).toContain('lessons/first.mdx:5:1  warning heading-space\n    5 | #One\n');
  expect(fixedFor(files)).toEqual({ 'lessons/first.mdx': lesson('# One\n') });
  expect(shownFor(fixedFor(files))).toContain('nothing wrong');
});
