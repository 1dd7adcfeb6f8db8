/** Blocks that lost their fence are found, and sentences are not taken for them. */
import { describe, expect, test } from 'vitest';
import { readLessonText } from '../../src/lesson/lesson-text.ts';
import { lostBlockIn } from '../../src/lesson/lost-block.ts';

const codes = (text: string): string[] =>
  readLessonText(`---\ntitle: One\n---\n\n${text}`).diagnostics.map(
    ({ code, span }) =>
      `${code} ${`---\ntitle: One\n---\n\n${text}`.slice(span.from, span.to).split('\n').join(' / ')}`,
  );

describe('a lesson whose block has lost', () => {
  test('its first line', () => {
    expect(codes('id: walk\nslot: 1/4\n\n-2 -3 -4 . | 6 = = . |]\n```\n\nMore.\n')).toEqual([
      'block-lost id: walk / slot: 1/4',
    ]);
  });
  test('one sign of its fence', () => {
    expect(codes('``tab\nid: walk\nslot: 1/4\n\n-2 -3 -4 . | 6 = = . |]\n``\n')).toEqual([
      'block-lost id: walk / slot: 1/4',
    ]);
  });
  test('the word of its fence', () => {
    expect(codes('```\nslot: 1/4\n\n-2 -3 -4 . |]\n```\n')).toEqual(['block-lost ```']);
  });
  test('all of it', () => {
    expect(codes('Play:\n-2 -3 -4 . | 6 = = . |]\n')).toEqual(['block-lost -2 -3 -4 . | 6 = = . |]']);
    expect(codes('    -2 = -3 = | 4\n')).toEqual(['block-lost -2 = -3 = | 4']);
  });
  test('the end of a fence of another kind', () => {
    expect(codes('```text\nplain\n')).toEqual(['fence-unclosed ```text']);
    expect(codes('~~~\nplain\n~~~\n')).toEqual([]);
    expect(codes('````md\n```tab\n4\n```\n````\n')).toEqual([]);
  });
});

describe('text that is no block', () => {
  test.each([
    'Today: the harp.',
    'key: to all of it is the breath.',
    'One | two | three | four',
    '2 + 2 = 4 and 3 = 3',
    '| a | b |\n| --- | --- |\n| 1 | 2 |',
    '1 2 3 4',
    'Count 1 = 2 = 3',
    '4 -4 5 -5',
    '- 1\n- 2',
  ])('%s', (text) => expect(codes(`${text}\n`)).toEqual([]));
  test('of any length takes no longer than its length', () => {
    for (const text of ['4 = '.repeat(20_000), 'harp: a\n'.repeat(20_000), '-(1 '.repeat(20_000), '"'.repeat(20_000)])
      lostBlockIn(text);
  });
});
