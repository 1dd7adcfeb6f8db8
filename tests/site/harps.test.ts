import { expect, test } from 'vitest';
import { loadCourse } from '../../src/course/load.ts';
import { harpsPlayed, positionsPlayed } from '../../src/site/harps.ts';
import { harpInWords } from '../../src/site/in-words.ts';
import { courseOf, lesson } from '../course/some-course.ts';

test('a lesson is played on the harps and in the positions of its blocks, whatever it sets for them, the most used first', async () => {
  const block = (settings: string): string => `\`\`\`tab\n${settings}\nslot: 1/4\n4 5 6 5\n\`\`\`\n`;
  const blocks = ['position: 3', 'harp: low F', 'harp: low F', 'harp: A\ntuning: natural-minor'].map(block);
  const folder = courseOf({
    'lessons/one.mdx': lesson(blocks.join('\n'), 'title: One\nharp: C\nposition: 2'),
    'lessons/talk.mdx': lesson('No music here.', 'title: Talk\nrequires: one\nharp: D'),
  });
  const course = loadCourse(folder);
  const [one, talk] = ['one', 'talk'].map((id) => course.byId.get(id));
  if (!one || !talk) throw new Error('both lessons are read');
  const words = (lessons: typeof course.lessons) => harpsPlayed(lessons).map((harp) => harpInWords(harp, harp.tuning));
  expect(words([one])).toEqual(['low F', 'C', 'A (natural minor)']);
  expect(positionsPlayed(one)).toEqual([2, 3]);
  expect(words([talk])).toEqual([]);
  expect(words(course.lessons)).toEqual(words([one]));
});
