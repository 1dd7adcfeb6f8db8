/** What an author wrote of target notes, read into what will be drawn. */
import { reporter } from '../../diagnostics/catalogue.ts';
import type { TargetNotesFigure } from '../../engrave/figure/figure.ts';
import { holeCount } from '../../instrument/harp.ts';
import { attributeText } from '../../lesson/component-text.ts';
import { FIGURE_PROBLEMS } from './problems.ts';
import { distinctChordsOf, placedOf, type WrittenFigure } from './written-figure.ts';

const report = reporter(FIGURE_PROBLEMS);

/** Where a player of the blues spends most of a solo. Common practice, no source. */
const USUAL_HOLES = [1, 6] as const;

/** Reads `<TargetNotes>`. */
export function readTargetNotes(written: WrittenFigure): TargetNotesFigure | undefined {
  const { attributes } = written;
  const chords = distinctChordsOf(written);
  const holes = holesOf(written);
  const bends = attributes.yesOrNo('bends') ?? true;
  const overbends = attributes.yesOrNo('overbends') ?? false;
  return chords && holes && { kind: 'target-notes', ...placedOf(written), chords, holes, bends, overbends };
}

/** `1-6`, or a single hole. */
function holesOf({ attributes, harp }: WrittenFigure): readonly [number, number] | undefined {
  const attribute = attributes.at('holes');
  if (!attribute) return USUAL_HOLES;
  const text = attributeText(attribute);
  const [, first = '0', last = first] = /^\s*(\d{1,2})(?:\s*[-–]\s*(\d{1,2}))?\s*$/.exec(text) ?? [];
  const [from, to] = [Number(first), Number(last)];
  const holes = holeCount(harp);
  if (from >= 1 && from <= to && to <= holes) return [from, to];
  attributes.diagnostics.push(report('figure-holes', attribute.valueSpan, { text, holes }));
  return undefined;
}
