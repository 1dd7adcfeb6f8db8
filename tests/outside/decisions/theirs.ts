/** The decisions of Verovio, read from the SVG that it draws. */
import { itemAt, present } from '../../../src/values/checked.ts';
import { headsOfNotes } from '../verovio.ts';
import { bendOf, type DecidedNote, type Decisions, type Side, stemSide, tipOf } from './decisions.ts';

const numbersOf = (element: Element | null | undefined): number[] =>
  (element?.getAttribute('d')?.match(/-?[\d.]+/g) ?? []).map(Number);

const placeOfUse = (use: Element | null): readonly [number, number] => {
  const [, x, y] = /translate\((-?[\d.]+), (-?[\d.]+)\)/.exec(use?.getAttribute('transform') ?? '') ?? [];
  return [Number(x), Number(y)];
};

/** Of a tie or a slur: `M x,y C x,y x,y x,y`, and the way back. */
function curveOf(group: Element): { side: Side; y: number } {
  const numbers = numbersOf(group.querySelector('path'));
  const y = (point: number): number => itemAt(numbers, 2 * point + 1);
  return { side: bendOf([y(0), y(3)], [y(1), y(2)]), y: y(0) };
}

/** Chords, notes outside of chords and rests, in the order of the music. */
const writtenOn = (page: Document): Element[] =>
  [...page.querySelectorAll('.layer :is(.chord, .note, .rest, .mRest)')].filter(
    (element) => !element.parentElement?.closest('.chord'),
  );

export function theirDecisions(page: Document): Decisions {
  const lines = [...present(page.querySelector('.staff') ?? undefined, 'a staff').children]
    .filter(({ localName }) => localName === 'path')
    .map((path) => itemAt(numbersOf(path), 1));
  const top = Math.min(...lines);
  const halfSpace = (Math.max(...lines) - top) / 8;
  const placeOf = (y: number): number => (y - top) / halfSpace;
  const curvesFrom = (kind: 'tie' | 'slur', owner: Element): Side[] => {
    const ids = [owner, ...owner.querySelectorAll('.note')].map((element) => `#${element.getAttribute('id')}`);
    return [...page.querySelectorAll(`.${kind}`)]
      .filter((curve) => ids.includes(curve.getAttribute('data-startid') ?? ''))
      .map(curveOf)
      .toSorted((a, b) => a.y - b.y)
      .map(({ side }) => side);
  };
  const notes = writtenOn(page).map((element): DecidedNote => {
    const rest = element.matches('.rest, .mRest');
    const uses = (rest ? [...element.querySelectorAll('use')] : headsOfNotes(element)).map(placeOfUse);
    const heads = uses.map(([, y]) => y);
    const [, from, , to] = numbersOf(element.querySelector('.stem > path'));
    const line = rest || from === undefined || to === undefined || from === to ? undefined : ([from, to] as const);
    const stem = line && stemSide(line, heads);
    return {
      rest,
      places: heads.map(placeOf),
      tip: line && stem && placeOf(tipOf(line, stem)),
      x: Math.min(...uses.map(([x]) => x)),
      tile: 0,
      stem,
      beam: element.closest('.beam')?.getAttribute('id') ?? undefined,
      ties: curvesFrom('tie', element),
      slur: curvesFrom('slur', element)[0],
    };
  });
  const tuplets = [...page.querySelectorAll('.tuplet')].map((tuplet): Side => {
    const [, figure] = placeOfUse(tuplet.querySelector('.tupletNum use'));
    const within = [...headsOfNotes(tuplet), ...tuplet.querySelectorAll('.rest use')].map((use) => placeOfUse(use)[1]);
    return figure < Math.min(...within) ? 'above' : 'below';
  });
  return { notes, tuplets };
}
