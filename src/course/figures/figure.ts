/** The figures of a lesson: what an author wrote between < and >, read into what will be drawn. */
import { type Diagnostic, hasError } from '../../diagnostics/diagnostic.ts';
import type { BendLadderFigure, Figure } from '../../engrave/figure/figure.ts';
import { slotName } from '../../notation/setting-values.ts';
import { type Fraction, fraction } from '../../time/fraction.ts';
import { readFormChart } from './form-chart.ts';
import { readHarpMap } from './harp-map.ts';
import { readRhythmLine } from './rhythm-line.ts';
import { readSideBySide } from './side-by-side.ts';
import { readTargetNotes } from './target-notes.ts';
import {
  distinctChordsOf,
  type FigureScope,
  type FigureText,
  holeAt,
  notesAt,
  placedOf,
  type WrittenFigure,
  writtenFigure,
} from './written-figure.ts';

/** A figure with the problems found in it. */
export interface FigureRead {
  /** Undefined if and only if a diagnostic is an error, or an attribute could not be read, which has been reported. */
  readonly figure: Figure | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads a figure; attributes it does not take are reported elsewhere. */
export function readFigure(component: FigureText, scope: FigureScope): FigureRead {
  if (component.attributes.some(({ unread }) => unread)) return { figure: undefined, diagnostics: [] };
  const written = writtenFigure(component, scope);
  const figure = figureOf(written);
  const { diagnostics } = written.attributes;
  return { figure: hasError(diagnostics) ? undefined : figure, diagnostics };
}

function figureOf(written: WrittenFigure): Figure | undefined {
  switch (written.component.name) {
    case 'RoleTable': {
      const notes = notesAt(written, 'notes');
      const chords = distinctChordsOf(written);
      return chords && { kind: 'role-table', ...placedOf(written), notes, chords };
    }
    case 'FormChart':
      return readFormChart(written);
    case 'HarpMap':
      return readHarpMap(written);
    case 'TargetNotes':
      return readTargetNotes(written);
    case 'RhythmLine':
      return readRhythmLine(written);
    case 'SideBySide':
      return readSideBySide(written);
    case 'NoteLengths':
      return { kind: 'note-lengths', slot: slotAt(written), ...written.title };
    case 'BendLadder':
      return bendLadder(written);
  }
}

function bendLadder(written: WrittenFigure): BendLadderFigure | undefined {
  const { attributes, harp, title } = written;
  const hole = holeAt(written, 'hole');
  const asked = (['overbends', 'cents', 'hertz'] as const).filter((name) => attributes.yesOrNo(name));
  const shown = Object.fromEntries(asked.map((name) => [name, true]));
  return hole === undefined ? undefined : { kind: 'bend-ladder', harp, hole, ...shown, ...title };
}

const SLOTS = ['1/4', '1/8', '1/16'] as const;

/** The slot in which note lengths are written: the lesson's own, where it is one that all of them can be written in. */
function slotAt({ attributes, settings }: WrittenFigure): Fraction {
  const own = SLOTS.find((slot) => slot === slotName(settings.slot));
  const slot = attributes.choice('slot', SLOTS) ?? own ?? '1/8';
  return fraction(1, Number(slot.slice(2)));
}
