/** The guide to figures: every example in it reads without a problem. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FIGURE_PROBLEMS } from '../../../src/course/figures/problems.ts';
import { loadFrom } from '../../../src/course/load.ts';
import { DOCUMENT_PROBLEMS } from '../../../src/document/problems.ts';
import { SCALES } from '../../../src/instrument/scale.ts';
import { FIGURES } from '../../../src/lesson/component.ts';
import { present } from '../../../src/values/checked.ts';
import { filesInMemory } from '../files-in-memory.ts';
import { ownProblems } from '../own-problems.ts';

const GUIDE = readFileSync(new URL('../../../src/course/figures/guide.md', import.meta.url), 'utf8');
const fences = (language: string): string[] =>
  [...GUIDE.matchAll(new RegExp(`\`\`\`${language}\\n([\\s\\S]*?)\`\`\``, 'g'))].map(([, text]) =>
    present(text, 'the text'),
  );

/** The block that examples speak of. */
const RIFF = '```tab\nid: first-riff\nslot: 1/4\nform: none\n\n-2 -3 -4 6 |]\n```\n';

function problemsOf(lesson: string, course = '') {
  const { problems, byId, file } = loadFrom(
    filesInMemory({
      'course.yaml': `title: A course\n${course}`,
      'lessons/one.mdx': `---\ntitle: One\nharp: A\nposition: 2\n---\n\n${lesson}\n\n${RIFF}`,
    }),
  );
  const own = ownProblems(problems, FIGURE_PROBLEMS, DOCUMENT_PROBLEMS);
  return { problems: own, figures: byId.get('one')?.figures ?? [], file };
}

describe('the guide to figures', () => {
  it.each(fences('mdx'))('has an example that reads: %s', (example) => {
    const { problems, figures } = problemsOf(example);
    expect(problems).toEqual([]);
    expect(figures).toHaveLength(example.trim().split('\n\n').length);
  });

  it.each(fences('yaml'))('has settings that read: %s', (example) => {
    expect(problemsOf('Text.\n', example).problems).toEqual([]);
  });

  it('says what the settings do', () => {
    const { file } = problemsOf('Text.\n', fences('yaml').join(''));
    expect([file.concertA, file.temperament.id]).toEqual([442, 'compromise']);
    expect(file.tunings[0]).toMatchObject({ id: 'my-tuning', draw: [2, 7, 11, 14, 18, 21, 23, 26, 30, 33] });
  });

  it('names every attribute of every figure, and every scale', () => {
    for (const [name, attributes] of Object.entries(FIGURES)) {
      const [section = ''] = GUIDE.split(/^## /m).filter((part) => part.includes(`<${name}`));
      for (const attribute of Object.keys(attributes)) expect(section).toContain(`\`${attribute}\``);
    }
    for (const { id } of SCALES) expect(GUIDE).toContain(`\`${id}\``);
  });
});
