import type { Pitching } from '../../instrument/temperament.ts';
import { drawBendLadder } from './bend-ladder.ts';
import type { Figure } from './figure.ts';
import { drawFormChart } from './form-chart.ts';
import { drawHarpMap } from './harp-map.ts';
import { drawNoteLengths } from './note-lengths.ts';
import { drawPositionList } from './position-list.ts';
import { drawRhythmLine } from './rhythm-line.ts';
import { drawRoleTable } from './role-table.ts';
import { drawSideBySide } from './side-by-side.ts';
import { drawTargetNotes } from './target-notes.ts';
import { drawTemperamentTable } from './temperament-table.ts';

/** The HTML of a figure: what is inside its `<figure>`. The same figure gives the same bytes, here and in a browser. */
export function drawFigure(figure: Figure, pitching: Pitching = {}): string {
  switch (figure.kind) {
    case 'role-table':
      return drawRoleTable(figure, pitching);
    case 'harp-map':
      return drawHarpMap(figure, pitching);
    case 'form-chart':
      return drawFormChart(figure, pitching);
    case 'target-notes':
      return drawTargetNotes(figure, pitching);
    case 'rhythm-line':
      return drawRhythmLine(figure);
    case 'side-by-side':
      return drawSideBySide(figure, pitching);
    case 'note-lengths':
      return drawNoteLengths(figure);
    case 'bend-ladder':
      return drawBendLadder(figure, pitching);
    case 'position-list':
      return drawPositionList(figure);
    case 'temperament-table':
      return drawTemperamentTable(figure, pitching);
  }
}
