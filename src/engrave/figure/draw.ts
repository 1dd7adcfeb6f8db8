import type { Pitching } from '../../instrument/temperament.ts';
import { drawCommon } from './draw-common.ts';
import { drawRare } from './draw-rare.ts';
import { type Figure, isOnHarp, isRare } from './figure.ts';
import { drawNoteLengths } from './note-lengths.ts';
import { drawRhythmLine } from './rhythm-line.ts';

/** The HTML of a figure: what is inside its `<figure>`. The same figure gives the same bytes, here and in a browser. */
export function drawFigure(figure: Figure, pitching: Pitching = {}): string {
  if (isOnHarp(figure)) return isRare(figure) ? drawRare(figure, pitching) : drawCommon(figure, pitching);
  return figure.kind === 'rhythm-line' ? drawRhythmLine(figure) : drawNoteLengths(figure);
}
