import { expect, test } from 'vitest';
import { requestPath, typeOf } from '../../src/publish/static-files.ts';

test.each([
  ['index.html', 'text/html; charset=utf-8'],
  ['.html', 'text/html; charset=utf-8'],
  ['lessons.v2/first.json', 'application/json; charset=utf-8'],
  ['media/a.b.mp3', 'audio/mpeg'],
  ['media/talk.vtt', 'text/vtt; charset=utf-8'],
  ['style.css', 'text/css; charset=utf-8'],
  ['a.nothing-known', 'application/octet-stream'],
  ['LICENSE', 'application/octet-stream'],
])('%s is sent as %s', (file, type) => expect(typeOf(file)).toBe(type));

test.each([
  ['/', '/'],
  ['/a%20b', '/a b'],
  ['/a?b=c', '/a'],
  ['/a#b', '/a'],
  ['/a?b#c?d', '/a'],
  ['/a?b\n/c', '/a'],
  ['/%C3%A4', '/ä'],
  ['/%', undefined],
  ['/%ff', undefined],
])('the path of %j is %j', (url, path) => expect(requestPath(url)).toBe(path));
