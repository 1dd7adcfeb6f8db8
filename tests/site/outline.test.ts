import { expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { outlineOf } from '../../src/site/outline.ts';
import { courseOf, lesson } from '../course/some-course.ts';

const course = () =>
  loadCourse(
    courseOf({
      'course.yaml':
        'title: A course\nstages:\n  - { id: start, title: Start }\n  - { id: empty, title: Empty }\n  - { id: end, title: End }\n',
      'lessons/first.mdx': lesson('', 'title: First\nstage: start'),
      'lessons/second.mdx': lesson('', 'title: Second\nstage: start\nrequires: first'),
      'lessons/third.mdx': lesson('', 'title: Third\nstage: end\nrequires: [first, second]'),
    }),
  );

const outlined = () => outlineOf(course(), course().lessons, course().path);

test('stages hold their lessons, numbered along the whole path, and keep their number in the course', () => {
  const { stages } = outlined();
  expect(
    stages.map(({ stage, number, lessons }) => [
      stage?.title,
      number,
      lessons.map((one) => [one.number, one.lesson.id]),
    ]),
  ).toEqual([
    [
      'Start',
      1,
      [
        [1, 'first'],
        [2, 'second'],
      ],
    ],
    ['End', 3, [[3, 'third']]],
  ]);
});

test('a lesson knows what lies before and after it, what it needs and what it opens, the longer ways left out', () => {
  const { places } = outlined();
  const first = places.get('first');
  expect(first?.before).toBeUndefined();
  expect(first?.after?.lesson.id).toBe('second');
  expect(first?.opens.map((one) => one.lesson.id)).toEqual(['second']);
  expect(places.get('third')?.needs.map((one) => one.lesson.id)).toEqual(['second']);
  expect(places.get('third')?.before?.lesson.id).toBe('second');
  expect(places.get('third')?.after).toBeUndefined();
  expect(places.get('third')?.opens).toEqual([]);
});

test('a lesson that is not shown has no place and no number', () => {
  const shown = course().lessons.filter(({ id }) => id !== 'second');
  const { places } = outlineOf(course(), shown, course().path);
  expect(places.has('second')).toBe(false);
  expect(places.get('third')?.number).toBe(2);
});
