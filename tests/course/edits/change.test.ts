import { describe, expect, test } from 'vitest';
import { encodeLike, type FileChange } from '../../../src/course/edits/change.ts';
import { diffOf } from '../../../src/course/edits/diff.ts';

const change = (file: string, before: string, after: string): FileChange => ({
  file,
  before: Buffer.from(before),
  after: Buffer.from(after),
});

test('a byte order mark stays where a text is written in the place of another', () => {
  expect(encodeLike(Buffer.from('\ufeffa'), 'b').toString()).toBe('\ufeffb');
  expect(encodeLike(Buffer.from('a'), 'b').toString()).toBe('b');
});

describe('changes of files', () => {
  test('are shown as a unified diff', () => {
    expect(diffOf([change('course.yaml', 'title: A\nstages: []\n', 'title: B\nstages: []\n')])).toBe(
      'diff --git a/course.yaml b/course.yaml\n--- a/course.yaml\n+++ b/course.yaml\n@@ -1,2 +1,2 @@\n-title: A\n+title: B\n stages: []\n',
    );
  });
  test('name the places of edits behind the head of each part', () => {
    const places = () => [{ line: 1, column: 8 }];
    expect(diffOf([change('course.yaml', 'title: A\n', 'title: B\n')], places)).toContain(
      '\n@@ -1,1 +1,1 @@ course.yaml:1:8\n',
    );
  });
  test('say that a file gets another name', () => {
    expect(diffOf([{ ...change('a.mdx', 'A\n', 'A\n'), to: 'b.mdx' }])).toBe(
      'diff --git a/a.mdx b/b.mdx\nrename from a.mdx\nrename to b.mdx\n',
    );
  });
  test('are one part where very many lines differ', () => {
    const lines = (word: string) => Array.from({ length: 2000 }, (_, index) => `${word} ${index}\n`).join('');
    const diff = diffOf([change('a.mdx', `A\nB\n${lines('old')}C\nD`, `A\nB\n${lines('new')}C\nE`)]);
    expect(diff).toContain('\n@@ -1,2004 +1,2004 @@\n A\n B\n-old 0\n');
    expect(diff).toContain('\n-D\n\\ No newline at end of file\n+new 0\n');
  });
});
