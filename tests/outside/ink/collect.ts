/**
 * What a page draws in its blocks, read from the page alone: every leaf of every picture, with its outline, its place on the page
 * and its paint. Runs in the browser, so each function given to `page.evaluate` stands alone.
 */
import type { Page } from 'playwright-core';

/** Left, top, right, bottom in CSS pixels. */
export type Box = readonly [left: number, top: number, right: number, bottom: number];
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

/** One drawn element. Places are in CSS pixels from the top left corner of its block. */
export interface Drawn {
  /** The element's own classes and those of the `use` that draws it. */
  readonly classes: readonly string[];
  /** Classes of the groups and pictures around it, from the nearest. */
  readonly around: readonly string[];
  /** The name of the outline, if it is drawn by one: `g-e0a4`. */
  readonly outline: string | undefined;
  readonly tag: string;
  readonly event: string | undefined;
  readonly bar: string | undefined;
  /** Which picture of the block it is in. */
  readonly part: number;
  /** Path data, in units of the drawing. */
  readonly path: string | undefined;
  readonly text: string | undefined;
  readonly font: string;
  /** In units of the drawing. */
  readonly fontSize: number;
  /** Where the text begins. */
  readonly at: readonly [number, number];
  /** From units of the drawing to the block's pixels. */
  readonly matrix: Matrix;
  /** Of its geometry, without the stroke. */
  readonly box: Box;
  readonly filled: boolean;
  /** Units of the drawing; 0 for none. */
  readonly stroke: number;
  readonly cap: 'butt' | 'round' | 'square';
  readonly join: 'miter' | 'round' | 'bevel';
  readonly dash: readonly number[];
  /** What of the page shows it; infinite where nothing clips. */
  readonly clip: Box;
}

export interface DrawnBlock {
  /** The id of the block in its lesson, or its number in the page. */
  readonly name: string;
  /** Where it is on the page, and how large: left, top, right, bottom. */
  readonly box: Box;
  readonly drawn: readonly Drawn[];
}

/** Reads every block that `selector` finds. */
export async function collectBlocks(page: Page, selector = '.tab-block'): Promise<readonly DrawnBlock[]> {
  // As text, which comes over in a fraction of the time that its values take one by one.
  return JSON.parse(await page.evaluate(blocksIn, selector)) as DrawnBlock[];
}

function blocksIn(selector: string): string {
  const LEAVES = 'path, rect, line, circle, ellipse, polyline, polygon, text, use';
  const numeric = (value: string | null): number => Number.parseFloat(value ?? '0') || 0;
  const times = (one: DOMMatrix, other: DOMMatrix): DOMMatrix => one.multiply(other);

  /** Whether a paint leaves ink: not none, not clear, not the colour of the paper. */
  const paper = (): string => {
    const probe = document.createElement('span');
    probe.style.color = 'var(--paper, #fff)';
    document.body.append(probe);
    const { color } = getComputedStyle(probe);
    probe.remove();
    return color;
  };
  const paperColour = paper();
  const isPaint = (paint: string): boolean => paint !== 'none' && !/^rgba\(.*, 0\)$/.test(paint);
  const isInk = (paint: string): boolean => isPaint(paint) && paint !== paperColour;

  function pathOf(element: Element): string | undefined {
    const get = (name: string): number => numeric(element.getAttribute(name));
    switch (element.tagName) {
      case 'path':
        return element.getAttribute('d') ?? undefined;
      case 'rect':
        return `M${get('x')} ${get('y')}h${get('width')}v${get('height')}h${-get('width')}Z`;
      case 'line':
        return `M${get('x1')} ${get('y1')}L${get('x2')} ${get('y2')}`;
      case 'polyline':
        return `M${element.getAttribute('points')}`;
      case 'polygon':
        return `M${element.getAttribute('points')}Z`;
      case 'circle':
      case 'ellipse': {
        const rx = get(element.tagName === 'circle' ? 'r' : 'rx');
        const ry = get(element.tagName === 'circle' ? 'r' : 'ry');
        return `M${get('cx') - rx} ${get('cy')}a${rx} ${ry} 0 1 0 ${2 * rx} 0a${rx} ${ry} 0 1 0 ${-2 * rx} 0Z`;
      }
      default:
        return undefined;
    }
  }

  function read(block: Element, index: number): DrawnBlock {
    const frame = block.getBoundingClientRect();
    const drawn: Drawn[] = [];
    const pictures = [...block.querySelectorAll('svg')].filter((svg) => {
      const { width, height } = svg.getBoundingClientRect();
      return width > 0 && height > 0 && !svg.parentElement?.closest('svg');
    });

    const clipOf = (element: Element): Box => {
      let box: Box = [-1e6, -1e6, 1e6, 1e6];
      for (let at: Element | null = element; at && at !== document.documentElement; at = at.parentElement) {
        if (at instanceof SVGElement && !(at instanceof SVGSVGElement)) continue;
        const style = getComputedStyle(at);
        if (style.overflowX === 'visible' && style.overflowY === 'visible') continue;
        const { left, top, right, bottom } = at.getBoundingClientRect();
        box = [
          Math.max(box[0], left - frame.left),
          Math.max(box[1], top - frame.top),
          Math.min(box[2], right - frame.left),
          Math.min(box[3], bottom - frame.top),
        ];
      }
      return box;
    };

    const shown = new Map<Element, boolean>([[block, true]]);
    /** Whether neither it nor a group around it is left out. `checkVisibility` does not see that within a picture. */
    const isShown = (element: Element): boolean => {
      const known = shown.get(element);
      if (known !== undefined) return known;
      const { display, opacity } = getComputedStyle(element);
      const parent = element.parentElement;
      const own = display !== 'none' && opacity !== '0' && (parent === null || isShown(parent));
      shown.set(element, own);
      return own;
    };

    // What a `use` draws is copied here, so that it has a box and the styles of this place.
    const stage = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
    stage.style.cssText = 'position:absolute;width:1px;height:1px;left:0;top:0;overflow:visible;visibility:hidden';
    pictures[0]?.parentElement?.append(stage);
    const copies = new Map<string, SVGGraphicsElement>();
    const copyOf = (name: string): SVGGraphicsElement | undefined => {
      const known = copies.get(name);
      if (known) return known;
      const original = document.getElementById(name);
      if (!original) return undefined;
      const copy = original.cloneNode(true) as SVGGraphicsElement;
      for (const inside of [copy, ...copy.querySelectorAll('[id]')]) inside.removeAttribute('id');
      stage.append(copy);
      copies.set(name, copy);
      return copy;
    };
    for (const use of block.querySelectorAll('use')) copyOf((use.getAttribute('href') ?? '').slice(1));

    for (const [part, picture] of pictures.entries()) {
      const clip = clipOf(picture);

      interface Drawing {
        readonly base: DOMMatrix | undefined;
        readonly classes: readonly string[];
        readonly around: readonly string[];
        readonly outline: string | undefined;
        /** Whose paint it takes where it has no class. */
        readonly painter: Element | undefined;
        readonly event: string | undefined;
        readonly bar: string | undefined;
      }

      const walk = (root: Element, from: Drawing): void => {
        const leaves = root.matches(LEAVES) ? [root] : [...root.querySelectorAll(LEAVES)];
        for (const leaf of leaves) {
          if (leaf.closest('defs, clipPath, mask, pattern, symbol') && !stage.contains(leaf)) continue;
          add(leaf as SVGGraphicsElement, from);
        }
      };

      const add = (leaf: SVGGraphicsElement, from: Drawing): void => {
        const screen = from.base ? leaf.getCTM() : leaf.getScreenCTM();
        if (!screen || !isShown(leaf)) return;
        // Copies are invisible where they are measured.
        if (!from.base && getComputedStyle(leaf).visibility !== 'visible') return;
        const local = new DOMMatrix([screen.a, screen.b, screen.c, screen.d, screen.e, screen.f]);
        const matrix = from.base
          ? times(from.base, local)
          : times(new DOMMatrix().translate(-frame.left, -frame.top), local);
        const own = [...leaf.classList];
        const around = [...from.around];
        for (let at = leaf.parentElement; at && at !== block && at !== (stage as Element); at = at.parentElement) {
          around.push(...at.classList);
        }
        const event = leaf.closest<SVGElement>('[data-event]')?.dataset['event'] ?? from.event;
        const bar = leaf.closest<SVGElement>('[data-bar]')?.dataset['bar'] ?? from.bar;
        if (leaf.tagName === 'use') {
          const name = (leaf.getAttribute('href') ?? leaf.getAttribute('xlink:href') ?? '').slice(1);
          const copy = copyOf(name);
          if (!copy) return;
          const base = matrix.translate(numeric(leaf.getAttribute('x')), numeric(leaf.getAttribute('y')));
          const outline = copy.tagName === 'path' ? name : undefined;
          walk(copy, { base, classes: [...from.classes, ...own], around, outline, painter: leaf, event, bar });
          return;
        }
        const style = getComputedStyle(from.painter && own.length === 0 ? from.painter : leaf);
        const stroke = isInk(style.stroke) ? numeric(style.strokeWidth) : 0;
        // A shape that is filled with paper covers what is inside its outline.
        const filled = isInk(style.fill) || (isPaint(style.fill) && stroke > 0);
        if (!filled && stroke === 0) return;
        const shared = {
          classes: [...from.classes, ...own],
          around,
          outline: from.outline,
          tag: leaf.tagName,
          event,
          bar,
          part,
          matrix: [matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f] as const,
          filled,
          stroke,
          cap: style.strokeLinecap as 'butt',
          join: style.strokeLinejoin as 'miter',
          dash: style.strokeDasharray === 'none' ? [] : style.strokeDasharray.split(/[ ,]+/).map(numeric),
          clip,
        };
        const boxed = (x: number, y: number, width: number, height: number): Box => {
          const corners = [
            [x, y],
            [x + width, y],
            [x, y + height],
            [x + width, y + height],
          ].map(([left = 0, top = 0]) => matrix.transformPoint({ x: left, y: top }));
          const xs = corners.map((corner) => corner.x);
          const ys = corners.map((corner) => corner.y);
          return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
        };
        if (leaf instanceof SVGTextElement) {
          const texts = document.createTreeWalker(leaf, NodeFilter.SHOW_TEXT);
          let ahead = 0;
          for (let node = texts.nextNode(); node; node = texts.nextNode()) {
            const text = node.textContent ?? '';
            const start = ahead;
            ahead += text.length;
            if (text.trim() === '' || !node.parentElement) continue;
            const face = getComputedStyle(node.parentElement);
            const begin = leaf.getStartPositionOfChar(start);
            const end = leaf.getEndPositionOfChar(start + text.length - 1);
            const size = numeric(face.fontSize);
            drawn.push({
              ...shared,
              classes: leaf.isSameNode(node.parentElement) ? shared.classes : [...node.parentElement.classList],
              path: undefined,
              text,
              font: `${face.fontStyle} ${face.fontWeight} ${face.fontSize} ${face.fontFamily}`,
              fontSize: size,
              at: [begin.x, begin.y],
              box: boxed(begin.x, begin.y - size, end.x - begin.x, size * 1.3),
            });
          }
          return;
        }
        const path = pathOf(leaf);
        if (!path) return;
        const bounds = leaf.getBBox();
        drawn.push({
          ...shared,
          path,
          text: undefined,
          font: '',
          fontSize: 0,
          at: [0, 0],
          box: boxed(bounds.x, bounds.y, bounds.width, bounds.height),
        });
      };
      walk(picture, {
        base: undefined,
        classes: [],
        around: [],
        outline: undefined,
        painter: undefined,
        event: undefined,
        bar: undefined,
      });
    }
    stage.remove();
    const figure = block.closest<HTMLElement>('[data-block]');
    return {
      name: figure?.dataset['block'] ?? String(index),
      box: [frame.left + scrollX, frame.top + scrollY, frame.right + scrollX, frame.bottom + scrollY],
      drawn,
    };
  }
  return JSON.stringify([...document.querySelectorAll(selector)].map(read));
}
