/** The guide to components within a sentence: every right example reads without a problem, the wrong one gives its message. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadFrom } from '../../../src/course/load.ts';
import { showProblem } from '../../../src/diagnostics/place.ts';
import { INLINES, LINKED_WORDS } from '../../../src/lesson/component.ts';
import { present } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';

const GUIDE = readFileSync(new URL('../../../src/course/inline/guide.md', import.meta.url), 'utf8');
const fences = (language: string): string[] =>
  [...GUIDE.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(([, text]) =>
    present(text, 'the text'),
  );

const BLOCK = '\n```tab\nchords: I7\n-2[vibrato] = = = -3[wah] = = . |]\n```\n';

function load(lesson: string) {
  return loadFrom(
    filesInMemory({
      'course.yaml': 'title: A course\nposition: 2\n',
      'glossary.yaml': present(fences('yaml glossary.yaml')[0], 'the glossary'),
      'lessons/one.mdx': `---\ntitle: One\nallow:\n  - { code: never-taught, reason: an example }\n---\n\n\n${lesson}${BLOCK}`,
    }),
  );
}

const problemsIn = (lesson: string) => {
  const { problems, sources } = load(lesson);
  return problems
    .filter(({ file, code }) => file !== 'course.yaml' && code !== 'allow-unused' && !/taught/.test(code))
    .map((problem) => showProblem(problem, sources.get(problem.file)));
};

describe('the guide to components within a sentence', () => {
  it.each(fences('mdx'))('has an example that reads: %s', (example) => {
    expect(problemsIn(example)).toEqual([]);
    const lesson = present(load(example).byId.get('one'), 'the lesson');
    expect(lesson.inlines.length + lesson.words.length).toBe(
      [...example.matchAll(/<(?:Note|Chord|Key|Harp|Position|Technique|Term)\b/g)].length,
    );
  });

  it('shows the message of the wrong example', () => {
    expect(problemsIn(present(fences('mdx wrong')[0], 'the wrong example'))).toEqual([
      present(fences('text')[0], 'its message').trimEnd(),
    ]);
  });

  it('names every attribute of every component', () => {
    for (const attributes of [...Object.values(INLINES), ...Object.values(LINKED_WORDS)])
      for (const attribute of Object.keys(attributes)) expect(GUIDE).toContain(`\`${attribute}\``);
  });
});
