/** A block of the page as a picture in a file of its own: what is on the page now, for whatever harp that is. */
import css from '../../engrave/block.css?raw';
import { pictureOf } from '../../engrave/picture/picture.ts';
import { present } from '../../values/checked.ts';

/** What shows only while a block is played. */
const PLAYING = ['now', 'answer'];

/** The block as SVG. */
export function pictureOfPage(figure: HTMLElement, title: string): string {
  const block = present(figure.querySelector<HTMLElement>('.tab-block'), 'a block');
  const tiles = [...block.querySelectorAll<SVGSVGElement>('svg.tile')];
  // One before each tile; the style sheet shows those that begin a row.
  const heads = [...block.querySelectorAll<SVGSVGElement>('svg.row-head')];
  const first = present(tiles[0], 'a tile').viewBox.baseVal;
  const head = present(heads[0], 'a row head').viewBox.baseVal;
  const view = `${head.x} ${head.y} ${head.width} ${head.height}`;
  const used = [...block.querySelectorAll('use')].flatMap((use) => use.getAttribute('href')?.slice(1) ?? []);
  const rowHead = present(block.querySelector('.sheet g'), 'a row head');
  return pictureOf({
    name: block.getAttribute('aria-label') ?? title,
    title,
    width: first.width,
    headWidth: head.width,
    height: first.height,
    rowHead: `<svg class="row-head" viewBox="${view}">${markupOf(rowHead)}</svg>`,
    tiles: tiles.map((tile, index) => ({
      markup: markupOf(tile),
      beginsRow: heads[index]?.classList.contains('l4') === true,
    })),
    outlines: [...new Set(used)].flatMap(outlineOf).join(''),
    css,
  });
}

/** The outline that others use by its id; the row head is drawn in full. */
function outlineOf(id: string): string[] {
  const outline = document.getElementById(id);
  return outline instanceof SVGPathElement ? [markupOf(outline)] : [];
}

/** An element as XML, as it is when nothing plays. */
function markupOf(element: Element): string {
  const copy = document.importNode(element, true);
  for (const part of [copy, ...copy.querySelectorAll('*')]) part.classList.remove(...PLAYING);
  return new XMLSerializer().serializeToString(copy).replaceAll(' xmlns="http://www.w3.org/2000/svg"', '');
}

const DOTS_PER_PIXEL = 2;

/** A picture as PNG, two dots to each of its pixels. Rejects where the browser cannot draw it. */
export async function pngOf(svg: string): Promise<Blob> {
  const picture = new Image();
  picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await picture.decode();
  const canvas = document.createElement('canvas');
  canvas.width = picture.naturalWidth * DOTS_PER_PIXEL;
  canvas.height = picture.naturalHeight * DOTS_PER_PIXEL;
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('the picture is too large'))), 'image/png');
  });
}
