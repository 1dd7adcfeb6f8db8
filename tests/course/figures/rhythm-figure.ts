import { loadFrom } from '../../../src/course/load.ts';
import type { RhythmLineFigure } from '../../../src/engrave/figure/figure.ts';
import { filesInMemory } from '../files-in-memory.ts';

/** The rhythm line with these attributes, in a lesson of its own. */
export function rhythmFigure(attributes: string): RhythmLineFigure {
  const files = {
    'course.yaml': 'title: A course\n',
    'lessons/one.mdx': `---\ntitle: One\n---\n\n<RhythmLine ${attributes} />\n`,
  };
  const course = loadFrom(filesInMemory(files));
  const figure = course.byId.get('one')?.figures[0]?.figure;
  if (figure?.kind !== 'rhythm-line') throw new Error(course.problems.map(({ message }) => message).join('\n'));
  return figure;
}
