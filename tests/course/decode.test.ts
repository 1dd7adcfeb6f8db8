/** Bytes of a file as text, and why a file cannot be read. */
import { sep } from 'node:path';
import { describe, expect, test } from 'vitest';
import { digest, exampleKey } from '../../src/course/block-key.ts';
import { decode } from '../../src/course/decode.ts';
import { errorCode, isWithin, reasonOf } from '../../src/course/files.ts';

/** The text, and `code from-to message` of what is wrong with it. */
const read = (bytes: readonly number[] | string) => {
  const { text, diagnostics } = decode(Buffer.from(bytes as string));
  return [text, ...diagnostics.map(({ code, span }) => `${code} ${span.from}-${span.to}`)];
};

describe('a file is read', () => {
  test.each(['', 'title: A', 'ä ♭ 𝄞', 'a\tb\r\nc\n', '\ufffd is a character like any other'])('as %j', (text) => {
    expect(read(text)).toEqual([text]);
  });
  test('without its byte order mark', () => {
    expect(read('\ufefftitle')).toEqual(['title']);
    expect(read('a\ufeffb')).toEqual(['a\ufeffb']);
  });
});

describe('bytes that are no UTF-8', () => {
  test.each([
    ['at the start', [0xff, 0x61], '\ufffda', 0],
    ['in the middle', [0x61, 0x62, 0xe4, 0x63], 'ab\ufffdc', 2],
    ['after letters of two bytes', [0xc3, 0xa4, 0xff], 'ä\ufffd', 1],
    ['after letters of two units', [0xf0, 0x9d, 0x84, 0x9e, 0xff], '𝄞\ufffd', 2],
    ['after a replacement character of the author’s own', [0xef, 0xbf, 0xbd, 0xff], '\ufffd\ufffd', 1],
    ['after a byte order mark', [0xef, 0xbb, 0xbf, 0x61, 0xff], 'a\ufffd', 1],
  ])('are reported once, %s', (_, bytes, text, at) => {
    expect(read(bytes)).toEqual([text, `file-not-utf8 ${at}-${at + 1}`]);
  });
});

describe('a control character', () => {
  test.each([
    [0x00, 'NUL'],
    [0x08, 'U+0008'],
    [0x0b, 'U+000B'],
    [0x0e, 'U+000E'],
    [0x1b, 'U+001B'],
    [0x1f, 'U+001F'],
    [0x7f, 'U+007F'],
  ])('is reported by its name: %d', (code, name) => {
    const { diagnostics } = decode(Buffer.from([0x61, code, 0x62]));
    expect(diagnostics.map(({ code, span }) => [code, span.from, span.to])).toEqual([['file-control-character', 1, 2]]);
    expect(diagnostics[0]?.message).toContain(name);
  });
  test.each(['\t', '\n', '\f', '\r', ' ', '~'])('is none of %j', (text) => expect(read(`a${text}b`)).toHaveLength(1));
  test('is not reported beside bytes that are no UTF-8', () => {
    expect(read([0x00, 0xff])).toEqual(['\0\ufffd', 'file-not-utf8 1-2']);
  });
});

describe('a path is within a folder', () => {
  test.each(['', 'b', 'b/c', '..b', '..b/c', '...'])('where it is the folder, or %j below it', (below) => {
    expect(isWithin('/a', `/a/${below}`)).toBe(true);
  });
  test.each(['/', '/b', '/ab', '/a/..', '/a/../b'])('and not as %s', (path) =>
    expect(isWithin('/a', path)).toBe(false),
  );
  test('whatever its parts are divided by', () => expect(isWithin(`${sep}a`, ['', 'a', 'b'].join(sep))).toBe(true));
});

describe('why a file cannot be read', () => {
  const failure = (code: string) => Object.assign(new Error('the words of the system'), { code });
  test.each([
    ['EACCES', 'its owner does not allow it'],
    ['EPERM', 'its owner does not allow it'],
    ['EISDIR', 'it is a folder'],
    ['ENOTDIR', 'it is no folder'],
    ['ELOOP', 'it is a link that leads back to itself'],
    ['ENOENT', 'it is a link to something that is not there'],
    ['EMFILE', 'too many files are open'],
    ['EIO', 'the disk reports an error'],
    ['EODD', 'the words of the system'],
  ])('%s', (code, words) => expect(reasonOf(failure(code))).toBe(words));
  test('is what was thrown, where that is no error of the disk', () => {
    expect(reasonOf('words')).toBe('words');
    expect(reasonOf(new Error('it is neither'))).toBe('it is neither');
    expect([errorCode(failure('EIO')), errorCode(new Error('x')), errorCode({ code: 'EIO' })]).toEqual([
      'EIO',
      undefined,
      undefined,
    ]);
  });
});

describe('a digest', () => {
  test('differs for any other list of texts', () => {
    const lists = [[], [''], ['', ''], ['ab'], ['a', 'b'], ['b', 'a'], ['1:a'], ['a', '1:b'], ['a1:b']];
    expect(new Set(lists.map((list) => digest(...list))).size).toBe(lists.length);
    expect(digest('a', 'b')).toBe(digest('a', 'b'));
  });
  test('of an example is none of a block with the same text', () => {
    expect(exampleKey('4')).not.toBe(digest('4'));
    expect(exampleKey('4')).not.toBe(exampleKey('5'));
  });
});
