import { describe, expect, test } from 'vitest';
import { ALL_PROBLEMS, CATALOGUES } from '../../../src/course/catalogue.ts';
import { typed } from '../some-terminal.ts';

describe('reedway messages', () => {
  test('prints every code there is, under its subject', async () => {
    const { code, out } = await typed(['messages']);
    expect(code).toBe(0);
    const lines = out.split('\n');
    for (const [name, { severity }] of Object.entries(ALL_PROBLEMS)) {
      expect(lines).toContain(`  ${name}${severity === 'error' ? '' : ` (${severity})`}`);
    }
    for (const { title } of CATALOGUES) expect(lines).toContain(title);
  });
  test('prints those it is asked for', async () => {
    expect((await typed(['messages', 'fence-word'])).out).toBe(
      [
        'The text of a lesson',
        '',
        '  fence-word (warning)',
        '    Only a fence marked with the word tab, in small letters, is a block; any other is shown',
        '    as plain text.',
        '',
      ].join('\n'),
    );
    const [entry] = JSON.parse((await typed(['messages', 'bar-too-long', '--json'])).out);
    expect(entry).toEqual({
      code: 'bar-too-long',
      subject: 'The notation',
      severity: 'error',
      about: 'The slots of a bar fill its meter exactly.',
    });
  });
});

describe('the catalogues', () => {
  test('give each code to one subject, in small letters and hyphens', () => {
    const codes = CATALOGUES.flatMap(({ problems }) => Object.keys(problems));
    expect(codes).toEqual([...new Set(codes)]);
    expect(codes.filter((code) => !/^[a-z]+(-[a-z0-9]+)+$/.test(code))).toEqual([]);
  });
  test('say of every code in whole sentences why it is a problem', () => {
    for (const [code, { about }] of Object.entries(ALL_PROBLEMS))
      expect([code, about]).toEqual([code, expect.stringMatching(/^[A-Za-z].*\.$/s)]);
  });
});
