/** A block, a figure of its lesson and the command line say the same key. */
import { describe, expect, test } from 'vitest';
import { drawFigure } from '../../src/engrave/figure/draw.ts';
import { plainKey, signatureOf } from '../../src/harmony/key.ts';
import { itemAt, present } from '../../src/values/checked.ts';
import { typed } from '../command/some-terminal.ts';
import { courseInMemory } from './files-in-memory.ts';
import { lesson } from './some-course.ts';

const keysOf = (frontMatter: string, music: string) => {
  const text = lesson(
    `\`\`\`tab\nslot: 1/4\n${music}\n\`\`\`\n\n<HarpMap show="notes" />\n`,
    `title: A lesson\n${frontMatter}`,
  );
  const { blocks, figures } = present(courseInMemory({ 'lessons/first.mdx': text }).byId.get('first'), 'the lesson');
  const { score } = itemAt(blocks, 0);
  const figure = present(itemAt(figures, 0).figure, 'the figure');
  if (!score || !('key' in figure)) throw new Error('it cannot be read');
  return {
    block: plainKey(score.key),
    figure: plainKey(figure.key),
    signature: signatureOf(score.key),
    drawn: drawFigure(figure, {}),
  };
};

describe('without chords', () => {
  test('third position of a Richter harp is D minor to all', async () => {
    const { block, figure, drawn } = keysOf('harp: C\nposition: 3', '-4 -5 6 -6');
    expect([block, figure]).toEqual(['D minor', 'D minor']);
    expect(drawn).toContain('the key of D minor');
    expect((await typed(['explain', '-4', '--harp', 'C', '--position', '3'])).out).toContain('D minor');
  });
  test('second position of a natural minor harp is G minor, with two flats', async () => {
    const { block, figure, signature } = keysOf('harp: C\ntuning: natural-minor\nposition: 2', '-2 -3 4 -4');
    expect([block, figure, signature]).toEqual(['G minor', 'G minor', -2]);
    const { out } = await typed(['explain', '-2', '--harp', 'C', '--tuning', 'natural-minor', '--position', '2']);
    expect(out).toContain('G minor');
  });
});

test('a minor home chord that is only a name in the music makes the block minor', () => {
  const { block, signature } = keysOf('harp: C\nposition: 2', '"Gm7" -2 -3\' 4 -4 | "Cm7" 4 -4 -5 6');
  expect([block, signature]).toEqual(['G minor', -2]);
});
