import { describe, expect, test } from 'vitest';
import { diffOf } from '../../../src/course/edits/diff.ts';
import { fixCourse } from '../../../src/course/edits/fix.ts';
import { type FileTable, filesInMemory } from '../files-in-memory.ts';
import { lesson } from '../some-course.ts';

const fixed = (table: FileTable) => {
  const { count, changes, after } = fixCourse(filesInMemory({ 'course.yaml': 'title: A course\n', ...table }));
  return {
    count,
    files: Object.fromEntries(changes.map((change) => [change.file, change.after.toString()])),
    left: after.problems.map(({ code }) => code),
  };
};

describe('the certain fixes of a course', () => {
  test('are applied, and nothing else is changed', () => {
    const text = lesson('#One\r\n\r\nText  \r\n\r\n##Two\r\n');
    expect(fixed({ 'lessons/first.mdx': `\ufeff${text}` })).toEqual({
      count: 2,
      files: { 'lessons/first.mdx': `\ufeff${text.replace('#One', '# One').replace('##Two', '## Two')}` },
      left: [],
    });
  });
  test('leave alone what only may be meant', () => {
    const front = '---\ntitle: A\nsumary: What it is.\n---\n\nHello.\n';
    expect(fixed({ 'lessons/first.mdx': front })).toEqual({ count: 0, files: {}, left: ['key-unknown'] });
  });
  test('leave alone a file that is no text', () => {
    const bytes = Buffer.concat([Buffer.from(lesson('#One\n\nCaf')), Buffer.from([0xe9, 0x0a])]);
    expect(fixed({ 'lessons/first.mdx': bytes }).files).toEqual({});
  });
  test('move a key into the item of a list above it, and not the items below', () => {
    const meant =
      'terms:\n  - term: riff\n    means: A tune.\n    also: [riffs]\n  - term: lick\n    means: Another.\n';
    const glossary = meant.replace('    also', '  also');
    const table = { 'lessons/first.mdx': lesson('A riff, a lick.\n'), 'glossary.yaml': glossary };
    expect(fixed(table).files).toEqual({ 'glossary.yaml': meant });
    // What follows may be the key's own value or go on with the list.
    const unsure = glossary.replace(' [riffs]', '');
    expect(fixed({ ...table, 'glossary.yaml': unsure }).files).toEqual({});
  });
  test('close no bracket whose closing sign is in the next line', () => {
    const front = '---\ntitle: A\nteaches: [half-step\n-bends]\n---\n\nHello.\n';
    expect(fixed({ 'lessons/first.mdx': front }).files).toEqual({});
  });
  test.each([
    ['a last bar line within the music', '4 5 ] 6 7 | 4 =3 |]'],
    ['a last bar line in a brace', '4 5 6 7 | 4 = = {]'],
    ['a chord in the middle of a word', '4 (2A5) 6 | 4 =3 |]'],
    ['a mark with a sign in it', '4 5 (1 4)[f@utter] . | 4 =3 |]'],
  ])('do not guess what is meant by %s', (_, music) => {
    const text = lesson(`\`\`\`tab\nslot: 1/4\n${music}\n\`\`\`\n`);
    const { files, left } = fixed({ 'lessons/first.mdx': text });
    expect(files).toEqual({});
    expect(left).not.toEqual([]);
  });
  test('make no heading of a number, of a line within a paragraph, or of words in a heading', () => {
    const text = lesson('#1 in the charts.\n\nIt goes on with\n#blues here.\n\n## #blues\n');
    expect(fixed({ 'lessons/first.mdx': text }).files).toEqual({});
  });
  test('are changes of what was read, whatever is in the file by now', () => {
    const table = { 'course.yaml': 'title: A course\n', 'lessons/first.mdx': lesson('#One\n') };
    const files = filesInMemory(table);
    let reads = 0;
    const saved = { ...files, read: (file: string) => (reads++ < 2 ? files.read(file) : Buffer.from('Saved.')) };
    const [change] = fixCourse(saved).changes;
    expect(change?.before.toString()).toBe(table['lessons/first.mdx']);
    const removed = {
      ...files,
      read(file: string) {
        if (reads++ > 100) throw new Error('ENOENT');
        return files.read(file);
      },
    };
    expect(() => fixCourse(removed)).not.toThrow();
  });
  test('of thousands in a file are found in time that grows with it', () => {
    const one = (id: number) => `#Head\n\n\`\`\`tab\nid: b${id}\nslot: 1/4\n4 5, 6 7 | 4 r r r\n\`\`\`\n\n`;
    const text = lesson(Array.from({ length: 700 }, (_, id) => one(id)).join(''));
    const { count, changes } = fixCourse(
      filesInMemory({ 'course.yaml': 'title: A course\n', 'lessons/first.mdx': text }),
    );
    expect(count).toBe(2100);
    const before = Date.now();
    expect(diffOf(changes)).toContain('\n+# Head\n');
    expect(Date.now() - before).toBeLessThan(3000);
  });
});
