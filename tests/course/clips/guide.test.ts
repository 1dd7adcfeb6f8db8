/** The guide to clips: every example in it reads without a problem. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { CLIP_PROBLEMS } from '../../../src/course/clips/problems.ts';
import { COMPONENTS } from '../../../src/lesson/component.ts';
import { present } from '../../../src/values/checked.ts';
import { courseInMemory } from '../files-in-memory.ts';
import { ownProblems } from '../own-problems.ts';
import { lesson } from '../some-course.ts';

const GUIDE = readFileSync(new URL('../../../src/course/clips/guide.md', import.meta.url), 'utf8');
const fences = (language: string): string[] =>
  [...GUIDE.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(([, text]) =>
    present(text, 'the text'),
  );

const HEAD = '```tab\nid: head\nslot: 1/4\n\n4 . -4 . | 5 . -5 . | 6 . -6 . | 7 . -7 . | 4 . -4 . |]\n```\n\n';
const [FRONT = ''] = fences('yaml');

test.each(fences('mdx'))('the guide to clips has an example that reads: %s', (example) => {
  const frontMatter = example.includes('name=') ? `title: A lesson\n${FRONT.trimEnd()}` : 'title: A lesson';
  const { problems, byId } = courseInMemory({
    'lessons/first.mdx': lesson(HEAD + example, frontMatter),
    'media/head.mp3': 'x',
    'media/head.vtt': 'WEBVTT\n\n00:01.000 --> 00:03.000\nNow.\n',
  });
  expect(ownProblems(problems, CLIP_PROBLEMS)).toEqual([]);
  expect(byId.get('first')?.clips).toHaveLength(1);
  expect(byId.get('first')?.clips[0]?.clip?.cues.length ?? 0).toBe(example.includes('example.org') ? 0 : 2);
});

test('the guide to clips names every attribute', () => {
  for (const attribute of Object.keys(COMPONENTS.get('Clip') ?? {})) expect(GUIDE).toContain(`\`${attribute}\``);
});
