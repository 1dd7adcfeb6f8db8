/** What an author wrote of a form chart, read into what will be drawn. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { FormChartFigure, TabNote } from '../../engrave/figure/figure.ts';
import { FIGURE_PROBLEMS } from './problems.ts';
import { chordsOfBars, placedOf, plainNote, type WrittenFigure } from './written-figure.ts';

const report = reporter(FIGURE_PROBLEMS);

/** Reads `<FormChart>`. */
export function readFormChart(written: WrittenFigure): FormChartFigure | undefined {
  const bars = chordsOfBars(written);
  if (!bars) return undefined;
  const targets = targetsFor(written, bars.length);
  const { progression } = written.settings;
  const name = written.scope.context.forms.find(({ id }) => id === progression?.form)?.title ?? 'The chords';
  return {
    kind: 'form-chart',
    ...placedOf(written),
    form: progression?.range ? `${name}, bars ${progression.range.join(' to ')}` : name,
    bars: bars.map((chords, index) => ({ chords, ...(targets[index] ? { target: targets[index] } : {}) })),
  };
}

function targetsFor({ attributes, harp }: WrittenFigure, bars: number): (TabNote | undefined)[] {
  const { diagnostics } = attributes;
  const attribute = attributes.at('targets');
  const read = attributes.notes('targets', harp);
  if (!attribute || !read) return [];
  if (read.length > bars)
    diagnostics.push(report('figure-targets', attribute.valueSpan, { bars, targets: read.length }));
  return read.map((notes, index) => {
    if (notes.length > 1) diagnostics.push(report('figure-target-many', attribute.valueSpan, { bar: index + 1 }));
    return notes[0] && plainNote(notes[0]);
  });
}
