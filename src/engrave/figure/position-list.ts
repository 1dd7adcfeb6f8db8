/** The twelve positions of a harp: where the tonic is, what lies on the reeds, what takes a bend, and the scales of each. */
import { printedName, printedPitch } from '../../instrument/pitch.ts';
import { type Means, meansOf, tabOf } from '../../instrument/playable.ts';
import {
  type DegreePlaces,
  namedTonic,
  POSITIONS,
  type Position,
  positionName,
  positionOn,
} from '../../instrument/position.ts';
import { layOut, missingOf, SCALES, type Scale, scaleNoteNames, stepsOf } from '../../instrument/scale.ts';
import { itemAt } from '../../values/checked.ts';
import { escapeText } from '../markup.ts';
import type { PositionListFigure } from './figure.ts';
import { onHarp } from './markup.ts';

/** The positions of a harp with their keys and scales, as an HTML list. */
export function drawPositionList({ harp }: PositionListFigure): string {
  const items = POSITIONS.map((number) => drawPosition(positionOn(harp, number), { harp, kind: 'position-list' }));
  return `<figcaption>The twelve positions<span class="on">, on ${onHarp(harp)}</span></figcaption><ol class="position-list">${items.join('')}</ol>`;
}

function drawPosition(position: Position, { harp }: PositionListFigure): string {
  const { number, tonicPlaces, modes, degrees } = position;
  const tonic = namedTonic(position);
  const name = positionName(number);
  const about = [...(name ? [`${name} harp`] : []), ...modes.map(({ title }) => title)].join(', ');
  const facts: [string, string][] = [
    ['Tonic', tonicPlaces.length > 0 ? tonicPlaces.map(tabOf).join(' ') : 'on no plain reed'],
    ['On plain reeds', labels(degrees, 'reed')],
    ['With the slide', labels(degrees, 'slide')],
    ['With bends', withPlaces(degrees, 'bend')],
    ['Only overbent', withPlaces(degrees, 'overbend')],
    [
      'Nowhere',
      degrees
        .filter(({ means }) => means === undefined)
        .map(({ step }) => step.label)
        .join(' '),
    ],
  ];
  const scales = SCALES.map((scale) => drawScale(scale, position, harp));
  return (
    `<li><p class="position-head"><b>${number}</b> <span class="key">${printedName(tonic)}</span> <span>${escapeText(about)}</span></p>` +
    `<dl>${facts
      .filter(([, value]) => value !== '')
      .map(([term, value]) => `<div><dt>${term}</dt><dd>${escapeText(value)}</dd></div>`)
      .join('')}</dl>` +
    `<details><summary>Scales in ${printedName(tonic)}</summary><dl class="scales">${scales.join('')}</dl></details></li>`
  );
}

const withMeans = (degrees: readonly DegreePlaces[], means: Means): readonly DegreePlaces[] =>
  degrees.filter((degree) => degree.means === means);

const labels = (degrees: readonly DegreePlaces[], means: Means): string =>
  withMeans(degrees, means)
    .map(({ step }) => step.label)
    .join(' ');

/** `♭3: -3' 10''; ♭5: -4'` */
const withPlaces = (degrees: readonly DegreePlaces[], means: Means): string =>
  withMeans(degrees, means)
    .map(({ step, places }) => {
      const such = places.filter((place) => meansOf(place) === means);
      return `${step.label}: ${such.map(tabOf).join(' ')}`;
    })
    .join('; ');

function drawScale(scale: Scale, { tonic }: Position, harp: PositionListFigure['harp']): string {
  const steps = stepsOf(scale);
  const laid = layOut(harp, tonic, steps);
  const missing = missingOf(laid);
  const run = laid.filter((note) => !missing.includes(note)).map(({ places }) => tabOf(itemAt(places, 0)));
  const names = scaleNoteNames(tonic, steps).map(printedName).join(' ');
  const lacks =
    missing.length === 0
      ? ''
      : `<span class="lacks">lacks ${missing.map(({ pitch }) => printedPitch(pitch)).join(' ')}</span>`;
  return `<div><dt>${escapeText(scale.title)} <span>${names}</span></dt><dd><span class="tab">${escapeText(run.join(' '))}</span> ${lacks}</dd></div>`;
}
