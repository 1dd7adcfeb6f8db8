/** The content security policy of every page: what it may load, kind by kind, after W3C’s “Content Security Policy Level 3”. */
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { CHOICE_SCRIPT, POLICY } from '../../src/site/policy.ts';

const directives = new Map(
  POLICY.split('; ').map((directive): [string, readonly string[]] => {
    const [name = '', ...sources] = directive.split(' ');
    return [name, sources];
  }),
);
const light = createHash('sha256').update(CHOICE_SCRIPT).digest('base64');

test.each([
  ['nothing at all, of what is not named here', 'default-src', ["'none'"]],
  ['scripts of the site, and the one that chooses the light', 'script-src', ["'self'", `'sha256-${light}'`]],
  ['workers of the site', 'worker-src', ["'self'"]],
  ['styles of the site', 'style-src', ["'self'"]],
  ['pictures of the site, and those written in the page', 'img-src', ["'self'", 'data:']],
  [
    'recordings of the site, of the page itself and, when they are played, of others',
    'media-src',
    ["'self'", 'blob:', 'https:'],
  ],
  ['fonts of the site', 'font-src', ["'self'"]],
  ['what its own scripts ask the site for', 'connect-src', ["'self'"]],
  ['pages of others, when they are opened', 'frame-src', ['https:']],
  ['the description of the site', 'manifest-src', ["'self'"]],
  ['no other base for its addresses', 'base-uri', ["'none'"]],
  ['no form that sends anything', 'form-action', ["'none'"]],
])('a page may load %s', (_, name, sources) => expect(directives.get(name)).toEqual(sources));

test('and the policy says no more', () => {
  expect([...directives.keys()]).toHaveLength(12);
  expect(POLICY).not.toContain('unsafe');
});

test('the script that chooses the light takes day or night, and fails silently where nothing is kept', () => {
  const shown = (kept: () => unknown): unknown => {
    const document = { documentElement: { dataset: {} as Record<string, unknown> } };
    new Function('localStorage', 'document', CHOICE_SCRIPT)({ getItem: kept }, document);
    return document.documentElement.dataset['light'];
  };
  expect(['day', 'night', 'noon', null].map((light) => shown(() => light))).toEqual([
    'day',
    'night',
    undefined,
    undefined,
  ]);
  expect(
    shown(() => {
      throw new Error('blocked');
    }),
  ).toBeUndefined();
});
