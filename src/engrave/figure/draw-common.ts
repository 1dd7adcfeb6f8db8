import type { Pitching } from '../../instrument/temperament.ts';
import { drawBendLadder } from './bend-ladder.ts';
import type { CommonFigure } from './figure.ts';
import { drawFormChart } from './form-chart.ts';
import { drawHarpMap } from './harp-map.ts';
import { drawRoleTable } from './role-table.ts';

/** The HTML of a figure that many lessons have, inside its `<figure>`. This is what a browser loads to draw it again for another harp. */
export function drawCommon(figure: CommonFigure, pitching: Pitching = {}): string {
  switch (figure.kind) {
    case 'role-table':
      return drawRoleTable(figure, pitching);
    case 'harp-map':
      return drawHarpMap(figure, pitching);
    case 'form-chart':
      return drawFormChart(figure, pitching);
    case 'bend-ladder':
      return drawBendLadder(figure, pitching);
  }
}
