import { existsSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isSafeReference, type LessonPlaces, type Places, resolve, SITE_PAGES } from '../../src/course/link.ts';
import type { Reference } from '../../src/lesson/reference.ts';

const lessonNamed = (id: string, more: Partial<LessonPlaces> = {}): LessonPlaces => ({
  id,
  draft: false,
  blocks: [],
  headings: [],
  ...more,
});
const from = lessonNamed('blues/head', { blocks: [{ id: 'lick' }, { id: '1' }], headings: [{ slug: 'the-turn' }] });
const places: Places = {
  lessons: new Map(
    [
      from,
      lessonNamed('blues/turnaround', { blocks: [{ id: 'turn' }] }),
      lessonNamed('turnaround'),
      lessonNamed('first-notes'),
      lessonNamed('soon', { draft: true }),
    ].map((one) => [one.id, one]),
  ),
  media: new Set(['media/harp.svg', 'media/talk/one two.mp4', 'media/take #2.mp3', 'media/Ha\u0308ndel.mp3']),
};

const lead = (url: string, use: Reference['use'] = 'link', here = from) =>
  resolve({ url, use, span: { from: 0, to: url.length } }, here, places);
const lesson = (id: string, place?: object) => ({ kind: 'lesson', lesson: id, ...(place ? { place } : {}) });

describe('a link leads', () => {
  test.each([
    ['first-notes', lesson('first-notes')],
    ['first-notes.mdx', lesson('first-notes')],
    ['../first-notes.mdx', lesson('first-notes')],
    ['/lessons/first-notes', lesson('first-notes')],
    ['/lessons/first-notes/', lesson('first-notes')],
    ['lessons/first-notes.mdx', lesson('first-notes')],
    // A bare name counts from the lessons folder, one with dots from the lesson.
    ['turnaround', lesson('turnaround')],
    ['./turnaround', lesson('blues/turnaround')],
    ['blues/turnaround#turn', lesson('blues/turnaround', { block: 'turn' })],
    ['#lick', lesson('blues/head', { block: 'lick' })],
    ['#1', lesson('blues/head', { block: '1' })],
    ['#the-turn', lesson('blues/head', { heading: 'the-turn' })],
    ['first-notes#', lesson('first-notes')],
    // As the address reads on the site.
    ['/lessons/blues/turnaround/#block-turn', lesson('blues/turnaround', { block: 'turn' })],
    ['#block-1', lesson('blues/head', { block: '1' })],
    ['first%2Dnotes', lesson('first-notes')],
    ['media/harp.svg', { kind: 'media', path: 'media/harp.svg' }],
    ['/media/harp.svg', { kind: 'media', path: 'media/harp.svg' }],
    ['../../media/harp.svg', { kind: 'media', path: 'media/harp.svg' }],
    ['media/take #2.mp3', { kind: 'media', path: 'media/take #2.mp3' }],
    ['media/H\u00e4ndel.mp3', { kind: 'media', path: 'media/Ha\u0308ndel.mp3' }],
    ['media/Ha\u0308ndel.mp3', { kind: 'media', path: 'media/Ha\u0308ndel.mp3' }],
    ['media/talk/one%20two.mp4', { kind: 'media', path: 'media/talk/one two.mp4' }],
    ['/techniques/slap/#blocks', { kind: 'page', path: 'techniques/slap/', rest: '#blocks' }],
    ['/', { kind: 'page', path: '', rest: '' }],
    ['https://example.org/a?b#c', { kind: 'outside' }],
    ['mailto:someone@example.org', { kind: 'outside' }],
    ['//example.org', { kind: 'outside' }],
  ])('%s', (url, target) => {
    expect(lead(url)).toEqual({ target, diagnostics: [] });
  });

  test.each([
    ['fist-notes', 'link-unknown', 'first-notes'],
    ['./head/turnaround', 'link-unknown', undefined],
    ['blues/turnaround#trun', 'link-anchor-unknown', 'turn'],
    ['#lik', 'link-anchor-unknown', 'lick'],
    ['soon', 'link-draft', undefined],
    ['media/hrap.svg', 'media-missing', 'media/harp.svg'],
    ['first-notes.html', 'link-unknown', 'first-notes'],
    ['../blues/turnaround.md', 'link-unknown', 'blues/turnaround'],
    ['notes.pdf', 'media-outside', undefined],
    ['pictures/harp.svg', 'media-outside', 'media/harp.svg'],
    ['/harp', 'link-page-unknown', '/harps'],
    ['/lessons', 'link-page-unknown', undefined],
    ['/search', 'link-page-unknown', undefined],
    ['/lessons/blues/turnaround/#block-trun', 'link-anchor-unknown', undefined],
    ['/lessons/blues/turnaruond/#turn', 'link-unknown', 'blues/turnaround'],
    ['/harp/techniques/slaps/', 'link-page-unknown', '/techniques/slaps/'],
    ['/harp/lessons/first-notes', 'link-page-unknown', '/lessons/first-notes'],
    ['../techniques/slaps/', 'link-unknown', '/techniques/slaps'],
    ['techniques/slaps', 'link-unknown', '/techniques/slaps'],
    ['javascript:alert(1)', 'link-unsafe', undefined],
    ['data:text/html,x', 'link-unsafe', undefined],
  ])('%s nowhere', (url, code, near) => {
    const { diagnostics } = lead(url);
    expect(diagnostics.map((one) => one.code)).toEqual([code]);
    if (near !== undefined) expect(diagnostics[0]?.help).toContain(`“${near}”`);
  });

  test.each(SITE_PAGES.filter(Boolean))('to the page %s, which the site has', (page) => {
    const pages = new URL('../../src/site/pages/', import.meta.url);
    expect(
      [`${page}.astro`, `[${page}].astro`, `${page}/index.astro`].some((file) => existsSync(new URL(file, pages))),
    ).toBe(true);
  });

  test('to a draft from another draft', () => {
    expect(lead('soon', 'link', lessonNamed('later', { draft: true })).diagnostics).toEqual([]);
  });
});

describe('what an author has on a page before it is right', () => {
  const safe = (url: string, use: 'link' | 'embed' | 'play') => isSafeReference({ url, use, span: { from: 0, to: 0 } });
  test.each(['', 'no-such-file.png', '/no-such-page', '#x', 'a/b:c', '\\', '%5c%5cexample.org'])(
    'may lead nowhere: %j',
    (url) => expect([safe(url, 'link'), safe(url, 'embed')]).toEqual([true, true]),
  );
  test.each([
    '//a.example',
    '\\\\a.example',
    '/\\a.example',
    '\\/a.example',
    '/\n\\a.example',
    'https:\\a.example',
    ' /\t/a.example',
  ])('fetches nothing from another site: %j', (url) =>
    expect([safe(url, 'link'), safe(url, 'embed')]).toEqual([true, false]),
  );
  test.each(['javascript:a', 'java\tscript:a', '\u0001javascript:a', 'JAVASCRIPT:a', 'data:text/html,a', 'vbscript:a'])(
    'runs nothing: %j',
    (url) => expect([safe(url, 'link'), safe(url, 'embed')]).toEqual([false, false]),
  );
});

describe('a picture or recording', () => {
  test.each([
    ['harp.svg', 'embed', ['media-outside']],
    ['first-notes', 'embed', ['media-outside']],
    ['https://example.org/x.png', 'embed', ['media-remote']],
    ['https://example.org/x.mp4', 'play', []],
    ['mailto:someone@example.org', 'play', ['link-unsafe']],
    ['first-notes', 'play', ['media-outside']],
    ['media/harp.svg', 'play', []],
  ] as const)('%s, to %s', (url, use, codes) => {
    expect(lead(url, use).diagnostics.map(({ code }) => code)).toEqual(codes);
  });
});
