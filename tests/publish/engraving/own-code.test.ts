import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ownCode } from '../../../src/publish/engraving/own-code.ts';
import { folderOf, write } from '../../course/some-course.ts';

const program = (): string =>
  folderOf({
    'src/engrave/block.ts': 'one',
    'src/site/styles/page.css': 'two',
    'components/Clip.astro': 'three',
    'package-lock.json': '{}',
    'package.json': '{}',
    'tests/a.test.ts': 'four',
    'content/course.yaml': 'five',
    'src/notation/guide.md': 'six',
  });

describe('the name of a state of our own code', () => {
  test.each([
    'src/engrave/block.ts',
    'src/site/styles/page.css',
    'components/Clip.astro',
    'package-lock.json',
    'src/new.ts',
  ])('is another when %s changes', (file) => {
    const root = program();
    const before = ownCode(root);
    write(root, file, 'changed');
    expect(ownCode(root)).not.toBe(before);
  });
  test.each(['tests/a.test.ts', 'content/course.yaml', 'src/notation/guide.md', 'README.md'])(
    'stays when %s changes',
    (file) => {
      const root = program();
      const before = ownCode(root);
      write(root, file, 'changed');
      expect(ownCode(root)).toBe(before);
    },
  );
  test('is another when a file goes, and when one is moved', () => {
    const root = program();
    const before = ownCode(root);
    rmSync(join(root, 'components/Clip.astro'));
    const without = ownCode(root);
    write(root, 'components/Clap.astro', 'three');
    expect(new Set([before, without, ownCode(root)]).size).toBe(3);
  });
  test('names a package that is missing', () => {
    const root = program();
    rmSync(join(root, 'package-lock.json'));
    write(root, 'package.json', JSON.stringify({ dependencies: { 'no-such-package-here': '1.0.0' } }));
    expect(() => ownCode(root)).toThrow('The package no-such-package-here is not installed.');
  });
});
