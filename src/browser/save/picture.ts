/** A block of the page as a picture in a file of its own: what is on the page now, for whatever harp that is. */
import css from '../../engrave/block.css?raw';
import { PART, PART_KINDS, type PictureTile, pictureOf } from '../../engrave/picture/picture.ts';
import { present } from '../../values/checked.ts';

/** What shows only while a block is played. */
const PLAYING = ['now', 'answer'];

/** The block as SVG. */
export function pictureOfPage(figure: HTMLElement, title: string): string {
  const block = present(figure.querySelector<HTMLElement>('.tab-block'), 'a block');
  const used = [...block.querySelectorAll('use')].flatMap((use) => use.getAttribute('href')?.slice(1) ?? []);
  return pictureOf({
    name: block.getAttribute('aria-label') ?? title,
    title,
    rows: rowsOf(block),
    outlines: [...new Set(used)].flatMap(outlineOf).join(''),
    css,
  });
}

/** The rows of four: the class of a row head says where each begins. */
function rowsOf(block: HTMLElement): PictureTile[][] {
  const rows: PictureTile[][] = [];
  for (const element of block.querySelectorAll<HTMLElement>('.row-head, .tile')) {
    const isHead = element.classList.contains('row-head');
    const begins = isHead && ['b4', 'b24'].some((name) => element.classList.contains(name));
    if (begins) rows.push([tileOf(element)]);
    else if (!isHead) rows.at(-1)?.push(tileOf(element));
  }
  return rows;
}

function tileOf(element: HTMLElement): PictureTile {
  const drawn = [...element.querySelectorAll<SVGSVGElement>('svg')];
  const parts = PART_KINDS.flatMap((kind) => {
    const part = drawn.find(({ classList }) => classList.contains(PART[kind]));
    if (!part) return [];
    return [{ kind, height: part.viewBox.baseVal.height, body: [...part.children].map(drawnInFull).join('') }];
  });
  return {
    parts,
    width: present(drawn[0], 'a drawing').viewBox.baseVal.width,
    heights: heightsOf(element, present(element.querySelector('.lanes'), 'the lanes')),
  };
}

/** The heights of a tile: the style sheet has them by class. */
function heightsOf(tile: Element, lanes: Element): PictureTile['heights'] {
  const [own, below] = [getComputedStyle(tile), getComputedStyle(lanes)];
  return {
    over: Number(own.getPropertyValue('--over')),
    between: Number(own.getPropertyValue('--between')),
    staffBelow: Number(own.getPropertyValue('--down')),
    lanesAbove: Number(below.getPropertyValue('--up')),
    lanesBelow: Number(below.getPropertyValue('--down')),
  };
}

/** An element of a drawing; a copy of the row head, which is elsewhere in the page, is drawn in full. */
function drawnInFull(element: Element): string {
  const copied = element.localName === 'use' ? element.getAttribute('href')?.slice(1) : undefined;
  const original = copied === undefined ? null : document.getElementById(copied);
  return original instanceof SVGGElement ? [...original.children].map(markupOf).join('') : markupOf(element);
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
