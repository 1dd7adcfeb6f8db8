import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type DoneMark,
  isDone,
  merge,
  NOTHING,
  type Progress,
  partOf,
  readRecord,
  sameProgress,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { cases } from '../../setup/long.ts';

const mark = fc.record({ done: fc.boolean(), at: fc.nat(20) });
const marks = fc
  .dictionary(fc.constantFrom('a', 'b', 'c', '__proto__', 'blues/riffs', 'ünïcode'), mark)
  .map((record) => new Map(Object.entries(record)));
const progress: fc.Arbitrary<Progress> = fc.record({ lessons: marks, blocks: marks });
const one = (key: string, value: DoneMark): Progress => ({ ...NOTHING, lessons: new Map([[key, value]]) });

describe('a record of progress', () => {
  it('is read as it was written', () => {
    fc.assert(
      fc.property(progress, fc.option(fc.string(), { nil: undefined }), (before, course) => {
        const reading = readRecord(writeRecord(before, course));
        expect(reading.kind).toBe('sound');
        expect(sameProgress(reading.progress, before)).toBe(true);
      }),
    );
  });

  it('is the same text for the same marks, in whatever order they were set', () => {
    const [a, b, c] = ['a', 'b', 'c'].map((key, at): [string, DoneMark] => [key, { done: true, at }]);
    if (!a || !b || !c) throw new Error('three marks');
    const texts = [
      [a, b, c],
      [c, b, a],
      [b, c, a],
    ].map((marks) => writeRecord({ ...NOTHING, blocks: new Map(marks) }));
    expect(new Set(texts).size).toBe(1);
    expect(Object.keys(JSON.parse(texts[0] ?? '').blocks)).toEqual(['a', 'b', 'c']);
  });

  it('is the same as another if it marks the same things at the same times', () => {
    const mark: DoneMark = { done: true, at: 1 };
    const own = one('a', mark);
    expect(sameProgress(own, one('a', { ...mark }))).toBe(true);
    for (const other of [
      NOTHING,
      one('b', mark),
      one('a', { ...mark, done: false }),
      one('a', { ...mark, at: 2 }),
      { ...own, lessons: new Map([...own.lessons, ['b', mark]]) },
      { ...own, blocks: own.lessons },
      { lessons: own.blocks, blocks: own.lessons },
    ])
      expect([sameProgress(own, other), sameProgress(other, own)]).toEqual([false, false]);
  });

  it('says of each lesson and block whether it is done', () => {
    const own = { ...one('a', { done: true, at: 1 }), blocks: new Map([['b', { done: false, at: 1 }]]) };
    expect([isDone(own, 'lessons', 'a'), isDone(own, 'blocks', 'a'), isDone(own, 'blocks', 'b')]).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('is never taken on trust: whatever the text, it is read or said to be damaged', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.json(),
          fc.jsonValue().map((value) => JSON.stringify({ version: 1, lessons: value, blocks: value })),
        ),
        (text) => {
          const { kind, progress: read } = readRecord(text);
          expect(['sound', 'damaged', 'version']).toContain(kind);
          for (const { done, at } of [...read.lessons.values(), ...read.blocks.values()]) {
            expect(typeof done).toBe('boolean');
            expect(Number.isSafeInteger(at)).toBe(true);
          }
        },
      ),
      { numRuns: cases(500, 4000) },
    );
  });

  it('that is cut short or wrong in part keeps what is sound of it, and says so', () => {
    expect(readRecord('{"version":1,"lessons":{"a":{"done":true,"at":1}').kind).toBe('damaged');
    const part = readRecord('{"version":1,"lessons":{"a":{"done":true,"at":1},"b":{"done":"yes","at":1}},"blocks":{}}');
    expect(part.kind).toBe('damaged');
    expect([...part.progress.lessons.keys()]).toEqual(['a']);
    for (const text of [
      '',
      'null',
      '[]',
      '{}',
      '{"version":"1"}',
      '{"version":1}',
      '{"version":1,"lessons":[],"blocks":{}}',
    ]) {
      expect(readRecord(text).kind, text).toBe('damaged');
    }
  });

  it('has no time that would outlast every later mark', () => {
    for (const [at, read] of [
      [Number.MAX_SAFE_INTEGER, 0],
      [8.64e15 + 1, 0],
      [8.64e15, 0],
      [8.64e15 - 1, 8.64e15 - 1],
      [1.7e12, 1.7e12],
    ]) {
      const reading = readRecord(`{"version":1,"lessons":{"a":{"done":true,"at":${at}}},"blocks":{}}`);
      expect([reading.kind, reading.progress.lessons.get('a')?.at]).toEqual(['sound', read]);
    }
    for (const at of ['1e300', '9007199254740993', '-1', '0.5', 'null'])
      expect(readRecord(`{"version":1,"lessons":{"a":{"done":true,"at":${at}}},"blocks":{}}`).kind, at).toBe('damaged');
  });

  it('is cut to what a course has, with the number of other marks', () => {
    const mark: DoneMark = { done: true, at: 1 };
    const others = Array.from({ length: 200_000 }, (_, index): [string, DoneMark] => [`other-${index}`, mark]);
    const all: Progress = {
      lessons: new Map([['blues/riffs', mark], ['a', mark], ['blues', mark], ...others]),
      blocks: new Map([
        ['blues/riffs/0', mark],
        ['a/call', mark],
        ['riffs/0', mark],
        ['a', mark],
      ]),
    };
    const { part, left } = partOf(all, new Set(['blues/riffs', 'a']));
    expect([...part.lessons.keys()]).toEqual(['blues/riffs', 'a']);
    expect([...part.blocks.keys()]).toEqual(['blues/riffs/0', 'a/call', 'a']);
    expect(left).toBe(200_002);
  });

  it('of another version is distinguished from a damaged one', () => {
    expect(readRecord('{"version":2,"anything":[]}')).toMatchObject({ kind: 'version', version: 2 });
    expect(readRecord('{"version":0}')).toMatchObject({ kind: 'version', version: 0 });
  });

  it('merged with another holds of each mark what was said last, in whatever order', () => {
    fc.assert(
      fc.property(progress, progress, progress, (a, b, c) => {
        expect(sameProgress(merge(a, b), merge(b, a))).toBe(true);
        expect(sameProgress(merge(a, merge(b, c)), merge(merge(a, b), c))).toBe(true);
        expect(sameProgress(merge(a, a), a)).toBe(true);
      }),
    );
    expect(merge(one('x', { done: true, at: 1 }), one('x', { done: false, at: 2 })).lessons.get('x')?.done).toBe(false);
    expect(merge(one('x', { done: true, at: 3 }), one('x', { done: false, at: 2 })).lessons.get('x')?.done).toBe(true);
    expect(merge(one('x', { done: true, at: 2 }), one('x', { done: false, at: 2 })).lessons.get('x')?.done).toBe(true);
  });
});
