/** The map of a path as SVG: no style of its own, only classes, and every lesson a link. */
import { BOX, type Box, type Line, type MapBand, type PathMap } from '../curriculum/map.ts';
import { escapeText, n } from '../engrave/markup.ts';
import { textWidth } from '../engrave/text-width.ts';
import { courseText } from './texts.ts';

/** The words of a map. */
export interface MapWords {
  /** What a lesson is called, its number along the path, and where its page is. */
  lesson(id: string): { readonly title: string; readonly number: number; readonly address: string };
  /** What a stage is called; undefined for lessons of no stage. */
  stage(id: string | undefined): string | undefined;
}

/** `name` is the accessible name of the picture. */
export function drawMap(map: PathMap, words: MapWords, name: string): string {
  const bands = map.bands.map((band, index) => drawBand(band, index, map.width)).join('');
  const names = map.bands.map((band, index) => drawName(band, index, words)).join('');
  const lines = map.lines.map((line) => drawLine(line)).join('');
  const boxes = map.boxes.map((box) => drawBox(box, words));
  return (
    `<svg class="path-map" viewBox="0 0 ${n(map.width)} ${n(map.height)}" width="${n(map.width)}" height="${n(map.height)}" role="group" aria-label="${escapeText(name)}">` +
    `${bands}${lines}${names}${boxes.join('')}</svg>`
  );
}

function drawBox({ lesson, x, y, elsewhere }: Box, words: MapWords): string {
  const { title, number, address } = words.lesson(lesson);
  const lines = linesOf(title);
  // The number is in the corner, so that a single line keeps clear of it.
  const first = (BOX.height - (lines.length - 1) * LINE) / 2 + (lines.length > 2 ? 9.5 : 7);
  const text = lines.map(
    (line, index) => `<tspan x="${BOX.width / 2}" y="${n(first + index * LINE)}">${escapeText(line)} </tspan>`,
  );
  const from = elsewhere.map((id) => words.lesson(id).title);
  const name =
    from.length === 0
      ? courseText('lessonOnMap', { number, title })
      : courseText('lessonOnMapAfter', { number, title, lessons: from.join(', ') });
  return (
    `<a class="lesson-box" href="${escapeText(address)}" data-lesson="${escapeText(lesson)}" aria-label="${escapeText(name)}">` +
    `<g transform="translate(${n(x)} ${n(y)})">${from.length > 0 ? `<path class="dependency" d="M${BOX.width / 2} -12v12"/>` : ''}` +
    `<rect class="plate" width="${BOX.width}" height="${BOX.height}"/>` +
    `<text class="number" x="5" y="12">${number} </text><text class="title">${text.join('')}</text>` +
    `<path class="tick" d="M${BOX.width - 15} 9l3.5 4 6.5 -8"/></g></a>`
  );
}

function drawBand({ top, height }: MapBand, index: number, width: number): string {
  return `<rect class="band${index % 2 === 1 ? ' odd' : ''}" y="${n(top)}" width="${n(width)}" height="${n(height)}"/>`;
}

/** Drawn above the lines, which are paler. */
function drawName({ stage, top, continued }: MapBand, index: number, words: MapWords): string {
  const title = words.stage(stage);
  if (title === undefined) return '';
  const name = escapeText(continued ? courseText('continued', { stage: title }) : title);
  return `<text class="stage-name${index % 2 === 1 ? ' odd' : ''}" x="6" y="${n(top + 17)}" aria-hidden="true">${name}</text>`;
}

/** A line leaves and enters boxes and passes rows upright. */
function drawLine({ from, to, points }: Line): string {
  const [start, ...remaining] = points;
  if (!start) return '';
  let at = start;
  let path = `M${n(at.x)} ${n(at.y)}`;
  for (const point of remaining) {
    const middle = n((at.y + point.y) / 2);
    path += `C${n(at.x)} ${middle} ${n(point.x)} ${middle} ${n(point.x)} ${n(point.y)}`;
    at = point;
  }
  return `<path class="dependency" data-from="${escapeText(from)}" data-to="${escapeText(to)}" d="${path}"/>`;
}

/** In pixels; `path.css` sets the same. */
const SIZE = 12;
const LINE = 13.5;
const MOST_LINES = 3;

/** A title in at most three lines that fit a box; what does not fit is cut, and is whole in the link's name. */
function linesOf(title: string): string[] {
  const room = BOX.width - 10;
  const lines: string[] = [];
  let line = '';
  for (const word of title.split(/\s+/)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer, SIZE) > room) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  lines.push(line);
  const shown =
    lines.length > MOST_LINES ? [...lines.slice(0, MOST_LINES - 1), lines.slice(MOST_LINES - 1).join(' ')] : lines;
  return shown.map((one) => cut(one, room));
}

function cut(line: string, room: number): string {
  if (textWidth(line, SIZE) <= room) return line;
  let shorter = line;
  while (shorter !== '' && textWidth(`${shorter}…`, SIZE) > room) shorter = shorter.slice(0, -1).trimEnd();
  return `${shorter}…`;
}
