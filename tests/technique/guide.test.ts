/** The author's guide to the path is true: its examples are read, its rules find what is below them, and it names every word. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { ALL_PROBLEMS } from '../../src/course/catalogue.ts';
import { loadCourse } from '../../src/course/load.ts';
import { PATH_PROBLEMS } from '../../src/curriculum/problems.ts';
import { detect } from '../../src/technique/detect.ts';
import { repertoireFromFile } from '../../src/technique/repertoire.ts';
import { techniquesFileSchema } from '../../src/technique/technique.ts';
import { VOCABULARY } from '../../src/technique/vocabulary.ts';
import { courseOf, lesson } from '../course/some-course.ts';
import { scoreOf } from './tab.ts';

const guide = readFileSync(new URL('../../src/technique/guide.md', import.meta.url), 'utf8');
const fences = [...guide.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)].map(([, kind = '', text = '']) => ({ kind, text }));
const files = fences.flatMap(({ kind, text }, index) => {
  const next = fences[index + 1];
  return kind === 'yaml' && text.startsWith('techniques:')
    ? [{ text, tab: next?.kind === 'tab' ? next.text : undefined }]
    : [];
});

describe('the guide to the path', () => {
  test.each(files)('techniques: $text', ({ text, tab }) => {
    // As the file reaches the schema: every value the text it was written as.
    const { repertoire, faults } = repertoireFromFile(techniquesFileSchema.parse(parse(text, { schema: 'failsafe' })));
    expect(faults).toEqual([]);
    if (tab === undefined) return;
    const id = /id: (.*)/.exec(text)?.[1];
    expect(detect(scoreOf(tab), repertoire).map(({ technique }) => technique.id)).toContain(id);
  });

  test('its front matter and its severities are read', () => {
    const [frontMatter = '', course = ''] = fences.filter(({ text }) => /^title:/.test(text)).map(({ text }) => text);
    const dir = courseOf({
      'course.yaml': `${course}stages: [{ id: bends-and-blues, title: Bends }]\n`,
      'lessons/first-bends.mdx': lesson(''),
      'lessons/twelve-bar.mdx': lesson('', 'title: B\nrequires: first-bends'),
      'lessons/first.mdx': lesson('', frontMatter.trim().replace('first-bends, ', '')),
    });
    const { problems, file } = loadCourse(dir);
    expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(file.severity.get('never-taught')).toBe('error');
  });

  test('it lists every finding about the path', () => {
    const listed = [...guide.matchAll(/^\| `([a-z-]+)` \| /gm)].map(([, code]) => code);
    for (const code of Object.keys(PATH_PROBLEMS)) expect(listed).toContain(code);
    expect(Object.keys(ALL_PROBLEMS)).toEqual(expect.arrayContaining(Object.keys(PATH_PROBLEMS)));
  });

  test.each(VOCABULARY.flatMap(({ words }) => words.map(([word]) => word)))('it names the word %s', (word) => {
    expect(guide).toMatch(new RegExp(`\`[^\`]*\\b${word}\\b[^\`]*\`|^ *(?:- )?${word}:`, 'm'));
  });
});
