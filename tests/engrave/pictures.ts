/** Engraved blocks as documents, for tests that look at what is drawn. */
import { JSDOM } from 'jsdom';
import { engraveBlock, glyphSheet } from '../../src/engrave/block.ts';
import type { Pitch } from '../../src/instrument/pitch.ts';
import { type ReadContext, readBlock } from '../../src/notation/read.ts';
import type { Score } from '../../src/score/score.ts';
import { itemAt } from '../../src/values/checked.ts';
import { cases, FOR_MUTANTS } from '../setup/long.ts';

export function scoreOf(text: string, context?: ReadContext): Score {
  const { score, diagnostics } = readBlock(text, context);
  if (!score) throw new Error(diagnostics.map((own) => own.message).join('\n'));
  return score;
}

const { DOMParser } = new JSDOM('').window;

/** Reads markup as XML, which forgives nothing. */
export function parsed(markup: string): Document {
  const text = `<root xmlns="http://www.w3.org/1999/xhtml">${markup.replaceAll('<svg ', '<svg xmlns="http://www.w3.org/2000/svg" ')}</root>`;
  const read = new DOMParser().parseFromString(text, 'application/xhtml+xml');
  const broken = read.querySelector('parsererror');
  if (broken) throw new Error(broken.textContent ?? 'not XML');
  return read;
}

export interface Picture {
  readonly score: Score;
  readonly html: string;
  readonly sheet: string;
  readonly page: Document;
  readonly tiles: readonly Element[];
  /** Copies of all that is drawn for the event of an index, in the parts of its tile. The line of signs, which is shown in place of the staff, is left out. */
  readonly event: (index: number) => Element;
}

/**
 * Laws of engraving are asked of the same random blocks, which differ from run to run, so that each block is engraved and read
 * once for all of them. A law that fails is shrunk as ever, and its message has the seed.
 */
export const SAME_BLOCKS = { seed: FOR_MUTANTS ? 1 : Math.trunc(Math.random() * 2 ** 31), numRuns: cases(25, 250) };

const pictures = new Map<string, Picture>();

export function pictureOf(text: string): Picture {
  const known = pictures.get(text);
  if (known) return known;
  const picture = drawn(text);
  pictures.set(text, picture);
  return picture;
}

function drawn(text: string): Picture {
  const score = scoreOf(text);
  const { html, glyphs } = engraveBlock(score, { id: 'b' });
  const sheet = glyphSheet(glyphs);
  const page = parsed(sheet + html);
  return {
    score,
    html,
    sheet,
    page,
    tiles: [...page.querySelectorAll('.tile')],
    event: (index) => {
      const drawn = page.querySelectorAll(`[data-event="${index}"]`);
      const found = [...drawn].filter((group) => !group.closest('.pg'));
      if (found.length === 0) throw new Error(`event ${index} is not drawn`);
      const all = page.createElementNS('http://www.w3.org/2000/svg', 'g');
      all.append(...found.map((group) => group.cloneNode(true)));
      return all;
    },
  };
}

export interface Drawn {
  /** Code point in hexadecimal. */
  readonly code: string;
  readonly x: number;
  readonly y: number;
  readonly classes: string;
}

/** The music glyphs within an element, in the order they are drawn. */
export function glyphsIn(element: Element): Drawn[] {
  return [...element.querySelectorAll('use')].flatMap((use) => {
    if (isSmall(use, element)) return [];
    const match = /^#g-([0-9a-f]+)$/.exec(use.getAttribute('href') ?? '');
    if (!match) return [];
    const moved = /translate\(([-\d.]+) ([-\d.]+)\)/.exec(use.getAttribute('transform') ?? '');
    const x = Number(moved?.[1] ?? use.getAttribute('x'));
    const y = Number(moved?.[2] ?? use.getAttribute('y'));
    return [{ code: itemAt(match, 1), x, y, classes: use.getAttribute('class') ?? '' }];
  });
}

/** Whether an element is of a grace note, where that is not what is looked at. */
const isSmall = (element: Element, within: Element): boolean => {
  const grace = element.closest('.G');
  return grace !== null && grace !== within;
};

/** The grace notes within an element: each as its part on the staff and that in the lanes. */
export const gracesIn = (element: Element): Element[] => [...element.querySelectorAll('.G')];

/** Half spaces from the treble staff's top line, F5, down to a pitch; by counting letters. */
export const placeOf = ({ letter, octave }: Pitch, octaves: number): number =>
  'CDEFGAB'.indexOf('F') + 7 * 5 - ('CDEFGAB'.indexOf(letter) + 7 * (octave - octaves));

const HEADS = new Set(['e0a0', 'e0a2', 'e0a3', 'e0a4']);
export const isHead = (glyph: Drawn): boolean => HEADS.has(glyph.code);
/** Quarter tones too: SMuFL, “Stein-Zimmermann accidentals”. */
const SIGNS: Readonly<Record<string, number>> = {
  e260: -1,
  e261: 0,
  e262: 1,
  e263: 2,
  e264: -2,
  e280: -0.5,
  e281: -1.5,
  e282: 0.5,
  e283: 1.5,
};

export interface Head {
  /** Half spaces down from the staff's top line. */
  readonly place: number;
  /** The sign before it, in half steps; undefined for none. */
  readonly sign: number | undefined;
  readonly code: string;
  readonly x: number;
}

/** Noteheads with their signs: each head's sign is drawn right after it. */
export function headsIn(element: Element): Head[] {
  const heads: Head[] = [];
  for (const glyph of glyphsIn(element)) {
    const sign = SIGNS[glyph.code];
    const last = heads.at(-1);
    if (isHead(glyph)) heads.push({ place: glyph.y / 5, sign: undefined, code: glyph.code, x: glyph.x });
    else if (sign !== undefined && last) heads[heads.length - 1] = { ...last, sign };
  }
  return heads;
}

/** The hole numbers within an element, with their places. */
export const numbersIn = (element: Element): { hole: string; x: number; y: number }[] =>
  [...element.querySelectorAll('text.n')]
    .filter((text) => !isSmall(text, element))
    .map((text) => ({
      hole: text.textContent ?? '',
      x: Number(text.getAttribute('x')),
      y: Number(text.getAttribute('y')),
    }));

export const textsIn = (element: Element, selector: string): string[] =>
  [...element.querySelectorAll(selector)].map((text) => text.textContent ?? '');
