import type { Pitching } from '../../instrument/temperament.ts';
import type { RareFigure } from './figure.ts';
import { drawPositionList } from './position-list.ts';
import { drawSideBySide } from './side-by-side.ts';
import { drawTargetNotes } from './target-notes.ts';
import { drawTemperamentTable } from './temperament-table.ts';

/** The HTML of a figure that few pages have, inside its `<figure>`: a page without one does not load this to follow another harp. */
export function drawRare(figure: RareFigure, pitching: Pitching = {}): string {
  switch (figure.kind) {
    case 'target-notes':
      return drawTargetNotes(figure, pitching);
    case 'side-by-side':
      return drawSideBySide(figure, pitching);
    case 'position-list':
      return drawPositionList(figure);
    case 'temperament-table':
      return drawTemperamentTable(figure, pitching);
  }
}
