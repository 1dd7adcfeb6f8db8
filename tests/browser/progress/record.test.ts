import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partOf, sizeOf } from '../../../src/browser/progress/part-of.ts';
import {
  type Entry,
  entryOf,
  isDone,
  isLater,
  merge,
  NOTHING,
  nextCounter,
  type Progress,
  readRecord,
  writeRecord,
} from '../../../src/browser/progress/record.ts';
import { cases } from '../../setup/long.ts';
import { anyEntry, anyProgress, entry, record } from './some-progress.ts';

const one = (key: string, value: Entry): Progress => record({ lessons: { [key]: value } });

describe('a record of progress', () => {
  it('is read as it was written', () => {
    fc.assert(
      fc.property(anyProgress, fc.string(), (before, course) => {
        const reading = readRecord(writeRecord(before, { course, about: { device: 'x' } }));
        expect(reading.kind).toBe('sound');
        expect(reading.progress).toEqual(before);
        expect(reading.about).toEqual({ device: 'x' });
      }),
    );
  });

  it('is the same text for the same entries, in whatever order they were set', () => {
    const all = ['a', 'b', 'c'].map((key, index): [string, Entry] => [key, entry(true, index)]);
    const texts = [all, [...all].reverse()].map((entries) => writeRecord(new Map([['blocks', new Map(entries)]])));
    expect(new Set(texts).size).toBe(1);
    expect(texts[0]).toBe(
      '{"version":2,"entries":{"blocks":{"a":[0,"d",1000,true],"b":[1,"d",1000,true],"c":[2,"d",1000,true]}}}',
    );
  });

  it('says of each lesson and block whether it is done', () => {
    const own = record({ lessons: { a: entry(true, 1) }, blocks: { b: entry(false, 1) } });
    expect([isDone(own, 'lessons', 'a'), isDone(own, 'blocks', 'a'), isDone(own, 'blocks', 'b')]).toEqual([
      true,
      false,
      false,
    ]);
  });

  it('is never taken on trust: whatever the text, it is read or said to be damaged', () => {
    const oddEntry = fc.oneof(fc.jsonValue(), fc.array(fc.jsonValue(), { minLength: 3, maxLength: 5 }));
    const oddKinds = fc.dictionary(
      fc.constantFrom('lessons', 'blocks', 'settings', 'takes', '__proto__'),
      fc.oneof(fc.jsonValue(), fc.dictionary(fc.string(), oddEntry)),
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.json(),
          fc.jsonValue().map((value) => JSON.stringify({ version: 1, lessons: value, blocks: value })),
          oddKinds.map((entries) => JSON.stringify({ version: 2, entries })),
        ),
        (text) => {
          const { kind, progress } = readRecord(text);
          expect(['sound', 'damaged', 'version']).toContain(kind);
          for (const [of, entries] of progress)
            for (const { counter, device, at, value } of entries.values()) {
              expect([Number.isSafeInteger(counter), Number.isSafeInteger(at), typeof device]).toEqual([
                true,
                true,
                'string',
              ]);
              if (of === 'lessons' || of === 'blocks') expect(typeof value).toBe('boolean');
            }
          expect(readRecord(writeRecord(progress))).toMatchObject({ kind: 'sound', progress });
        },
      ),
      { numRuns: cases(500, 4000) },
    );
  });

  it('that is cut short or wrong in part keeps what is sound of it, and says so', () => {
    expect(readRecord('{"version":2,"entries":{"lessons":{"a":[1,"d",1,true]').kind).toBe('damaged');
    for (const wrong of ['[1,"d",1,"yes"]', '[-1,"d",1,true]', '[1,2,1,true]', '[1,"d",1]', '[1,"d",1,true,0]', '{}']) {
      const part = readRecord(`{"version":2,"entries":{"lessons":{"a":[1,"d",1,true],"b":${wrong}}}}`);
      expect(part.kind, wrong).toBe('damaged');
      expect(part.progress, wrong).toEqual(one('a', entry(true, 1, 'd', 1)));
    }
    for (const text of ['', 'null', '[]', '{}', '{"version":"1"}', '{"version":2}', '{"version":2,"entries":[]}'])
      expect(readRecord(text).kind, text).toBe('damaged');
  });

  it('has no counter and no time that would outlast everything set later', () => {
    const read = (counter: number, at: number) =>
      entryOf(
        readRecord(`{"version":2,"entries":{"lessons":{"a":[${counter},"d",${at},true]}}}`).progress,
        'lessons',
        'a',
      );
    expect(read(Number.MAX_SAFE_INTEGER, 8.64e15)).toEqual(entry(true, 0, 'd', 0));
    expect(read(2 ** 52 + 1, 8.64e15 - 1)).toEqual(entry(true, 0, 'd', 8.64e15 - 1));
    expect(read(2 ** 52, 5)).toEqual(entry(true, 2 ** 52, 'd', 5));
    for (const number of ['1e300', '9007199254740993', '-1', '0.5', 'null'])
      expect(readRecord(`{"version":2,"entries":{"lessons":{"a":[${number},"d",1,true]}}}`).kind, number).toBe(
        'damaged',
      );
  });

  it('is cut to what a course has, with the number of other entries', () => {
    const mark = entry(true, 1);
    const others = Array.from({ length: 200_000 }, (_, index): [string, Entry] => [`other-${index}`, mark]);
    const some = record({
      blocks: { 'blues/riffs/0': mark, 'a/call': mark, 'riffs/0': mark, a: mark },
      settings: { 'a/call': mark, 'other/0': mark },
      place: { last: entry({ lesson: 'other' }, 1) },
      log: {
        'd/2026-11': entry({ 'a/call': {}, 'other/x': {} }, 1),
        'd/2026-10': entry({ 'other/x': {} }, 1),
        'd/2026-09': entry(7, 1),
      },
      takes: { x: mark },
    });
    const all = new Map([
      ...some,
      ['lessons', new Map([['blues/riffs', mark], ['a', mark], ['blues', mark], ...others])],
    ]);
    const { part, left } = partOf(all, new Set(['blues/riffs', 'a']));
    const keys = (kind: string) => [...(part.get(kind)?.keys() ?? [])];
    expect(keys('lessons')).toEqual(['blues/riffs', 'a']);
    expect(keys('blocks')).toEqual(['blues/riffs/0', 'a/call', 'a']);
    expect(keys('settings')).toEqual(['a/call']);
    expect(keys('place')).toEqual([]);
    expect(keys('log')).toEqual(['d/2026-11']);
    // Nobody here knows what these are about.
    expect(keys('takes')).toEqual(['x']);
    expect(left).toBe(200_001 + 1 + 1 + 1 + 2);
    expect(sizeOf(part) + left).toBe(sizeOf(all));
    const renamed = partOf(all, new Set(['new']), { lessons: { other: 'new' }, blocks: {} });
    expect(['lessons', 'settings', 'place', 'log'].map((kind) => renamed.part.get(kind)?.size)).toEqual([0, 1, 1, 2]);
  });

  it('of another version is distinguished from a damaged one', () => {
    expect(readRecord('{"version":3,"anything":[]}')).toMatchObject({ kind: 'version', version: 3 });
    expect(readRecord('{"version":0}')).toMatchObject({ kind: 'version', version: 0 });
  });

  it('of version 1 is read with all its marks, which whatever was set since comes after', () => {
    const text =
      '{"version":1,"lessons":{"a":{"done":true,"at":1700000000000}},"blocks":{"a/0":{"done":false,"at":5}}}';
    const { kind, progress } = readRecord(text);
    expect(kind).toBe('sound');
    expect(progress).toEqual(
      record({ lessons: { a: entry(true, 0, '', 1.7e12) }, blocks: { 'a/0': entry(false, 0, '', 5) } }),
    );
    const since = one('a', entry(false, 1, 'd', 3));
    for (const merged of [merge(progress, since), merge(since, progress)])
      expect(isDone(merged, 'lessons', 'a')).toBe(false);
    // Among themselves they are by their time, as they were.
    const marked = (done: boolean, at: number) =>
      readRecord(`{"version":1,"lessons":{"x":{"done":${done},"at":${at}}},"blocks":{}}`).progress;
    expect(isDone(merge(marked(true, 1), marked(false, 2)), 'lessons', 'x')).toBe(false);
    expect(isDone(merge(marked(true, 3), marked(false, 2)), 'lessons', 'x')).toBe(true);
    expect(isDone(merge(marked(false, 2), marked(true, 2)), 'lessons', 'x')).toBe(true);
    expect(
      readRecord('{"version":1,"lessons":{"a":{"done":true,"at":1},"b":{"done":"yes","at":1}},"blocks":{}}'),
    ).toEqual({
      kind: 'damaged',
      version: 1,
      about: {},
      progress: one('a', entry(true, 0, '', 1)),
    });
    expect(readRecord('{"version":1,"lessons":{}}').kind).toBe('damaged');
  });

  it('keeps entries of kinds that it does not know, of a later version of the site', () => {
    const text =
      '{"version":2,"entries":{"lessons":{"a":[1,"d",1,true]},"takes":{"x":[2,"e",1,{"cents":[1,2]}]},"toString":{"y":[3,"e",1,null]}}}';
    const { kind, progress } = readRecord(text);
    expect(kind).toBe('sound');
    expect(writeRecord(merge(NOTHING, progress))).toBe(text);
  });
});

describe('two records merged', () => {
  it('are the same in either order, in whatever groups, and however often', () => {
    fc.assert(
      fc.property(anyProgress, anyProgress, anyProgress, (a, b, c) => {
        expect(merge(a, b)).toEqual(merge(b, a));
        expect(merge(a, merge(b, c))).toEqual(merge(merge(a, b), c));
        expect(merge(a, a)).toBe(a);
        expect(merge(merge(a, b), b)).toEqual(merge(a, b));
      }),
      { numRuns: cases(300, 3000) },
    );
  });

  it('are ordered by one order of all entries', () => {
    fc.assert(
      fc.property(anyEntry, anyEntry, anyEntry, (a, b, c) => {
        const same = JSON.stringify(a) === JSON.stringify(b);
        expect(isLater(a, b)).toBe(!same && !isLater(b, a));
        if (isLater(a, b) && isLater(b, c)) expect(isLater(a, c)).toBe(true);
      }),
    );
  });

  it('give the record itself where the other has nothing later', () => {
    const own = record({ lessons: { a: entry(true, 2), b: entry(true, 3) } });
    expect(merge(own, one('a', entry(false, 1, 'z', 9e12)))).toBe(own);
    expect(merge(own, NOTHING)).toBe(own);
  });

  it('have what a device set after it knew the other record, whatever its clock says', () => {
    fc.assert(
      fc.property(anyProgress, fc.nat(), fc.boolean(), (other, at, value) => {
        const after = one('a', entry(value, nextCounter(other), 'phone', at));
        for (const merged of [merge(other, after), merge(after, other)])
          expect(isDone(merged, 'lessons', 'a')).toBe(value);
      }),
    );
  });
});
