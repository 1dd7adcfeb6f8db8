/** All that is measured of one page: its blocks, and whether it fits its window. */
import type { Page } from 'playwright-core';
import { type Box, collectBlocks, type DrawnBlock } from './collect.ts';
import { collisionsIn, type Fault, inked } from './collisions.ts';
import { sidewaysOn } from './sideways.ts';
import { unevenIn } from './spacing.ts';
import { smallTextIn, strayInkIn } from './words.ts';

/** A fault and where to look at it. */
export interface Found extends Fault {
  /** The page's path in its site. */
  readonly page: string;
  readonly block: string;
  /** Where the block's corner is on the page. */
  readonly corner: readonly [left: number, top: number];
}

export interface PageMeasure {
  readonly found: readonly Found[];
  /** Of each block, in CSS pixels. */
  readonly heights: readonly { readonly block: string; readonly height: number }[];
}

/** Blocks that were measured before and had the same ink at the same places: pages show a block again. */
export type Known = Map<string, readonly Fault[]>;

export async function measurePage(page: Page, path: string, known: Known = new Map()): Promise<PageMeasure> {
  const blocks = await collectBlocks(page);
  const found = blocks.flatMap((block): Found[] => {
    const key = JSON.stringify([block.drawn, block.box[2] - block.box[0], block.box[3] - block.box[1]]);
    if (known.has(key)) return [];
    const faults = faultsOf(block);
    known.set(key, faults);
    return faults.map((fault) => ({ ...fault, page: path, block: block.name, corner: [block.box[0], block.box[1]] }));
  });
  const wide = (await sidewaysOn(page)).map((detail): Found => {
    const box: Box = [0, 0, 0, 0];
    return { kind: 'sideways', detail, bar: undefined, box, page: path, block: '', corner: [0, 0] };
  });
  const heights = blocks.map(({ name, box }) => ({ block: name, height: box[3] - box[1] }));
  return { found: [...found, ...wide], heights };
}

/** All that is wrong with one block as it is shown. */
export function faultsOf(block: DrawnBlock): readonly Fault[] {
  const items = inked(block);
  return [...collisionsIn(items), ...smallTextIn(items), ...strayInkIn(block, items), ...unevenIn(items)];
}
