import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LessonAndNeeds, nextLesson, stateOf } from '../../../src/browser/progress/next-lesson.ts';
import type { Progress } from '../../../src/browser/progress/record.ts';
import { entry, lessonsDone, record } from './some-progress.ts';

/** a forks into b and c; d joins them; e follows b. */
const STOPS: readonly LessonAndNeeds[] = [
  { id: 'a', needs: [] },
  { id: 'b', needs: ['a'] },
  { id: 'c', needs: ['a'] },
  { id: 'd', needs: ['b', 'c'] },
  { id: 'e', needs: ['b'] },
];
const done = lessonsDone;
const states = (progress: Progress) => STOPS.map((stop) => stateOf(stop, progress)).join(' ');

describe('where a student stands', () => {
  it('is done, ready where all it builds on is done, or not yet', () => {
    expect(states(done())).toBe('ready later later later later');
    expect(states(done('a', 'b'))).toBe('done done ready later ready');
    expect(states(done('a', 'b', 'c'))).toBe('done done done ready ready');
  });

  it('counts a mark taken back as not done', () => {
    const progress = record({ lessons: { a: entry(false, 5) } });
    expect(states(progress)).toBe('ready later later later later');
  });
});

describe('what comes next', () => {
  it('begins where the path begins', () => expect(nextLesson(STOPS, done())?.id).toBe('a'));

  it('follows the branch of the lesson done last, and else the order of the path', () => {
    expect(nextLesson(STOPS, done('a'))?.id).toBe('b');
    expect(nextLesson(STOPS, done('a', 'b'))?.id).toBe('e');
    expect(nextLesson(STOPS, done('a', 'b', 'e'))?.id).toBe('c');
    expect(nextLesson(STOPS, done('b', 'a'))?.id).toBe('c');
  });

  it('is nothing where all is done', () => expect(nextLesson(STOPS, done('a', 'b', 'c', 'd', 'e'))).toBeUndefined());

  it('is always open, and leads through every lesson of a path, whichever way it is walked', () => {
    const paths = fc.array(fc.array(fc.nat(5), { maxLength: 3 }), { minLength: 1, maxLength: 12 }).map((backs) =>
      backs.map(
        (list, number): LessonAndNeeds => ({
          id: `${number}`,
          needs: [...new Set(list.map((back) => number - 1 - back).filter((other) => other >= 0))].map(String),
        }),
      ),
    );
    fc.assert(
      fc.property(paths, (stops) => {
        const walked: string[] = [];
        for (let next = nextLesson(stops, done()); next; next = nextLesson(stops, done(...walked))) {
          expect(stateOf(next, done(...walked))).toBe('ready');
          walked.push(next.id);
        }
        expect(walked.length).toBe(stops.length);
      }),
    );
  });
});
