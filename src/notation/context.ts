/** What a block is read against: the settings it starts from, what names stand for, and where quotations lead. */
import { SHIPPED_TABLES, type Tables } from './setting-values.ts';
import { DEFAULTS, type Settings } from './settings.ts';
import type { BlockTree } from './tree.ts';

/** What a block is read against: settings, tables, and the other blocks of the course. */
export interface ReadContext extends Tables {
  /** The lesson's settings over the course's over the shipped ones. */
  readonly defaults: Settings;
  /** Finds a block of a lesson for a quotation, of the block's own lesson for undefined. The same block gives the same tree each time. */
  readonly find: (lesson: string | undefined, block: string) => FoundBlock;
  /** What else of the block's own lesson a name may stand for, as it is quoted: a phrase of another block, or a block. */
  readonly otherMeaning: (name: string) => string | undefined;
}

/** What a quotation names, or which part of it is missing. */
export type FoundBlock = { readonly tree: BlockTree; readonly context: ReadContext } | Missing;

/** A block or lesson that is not there, the nearest there is, and whether that had the name before. */
export interface Missing {
  readonly missing: 'lesson' | 'block';
  readonly nearest?: string;
  readonly renamed?: true;
  /** The only lesson that has a block of that name, with the phrase if one was asked for. */
  readonly elsewhere?: string;
}

/** A block on its own, in no course. */
export const ALONE: ReadContext = {
  ...SHIPPED_TABLES,
  defaults: DEFAULTS,
  find: (lesson) => ({ missing: lesson === undefined ? 'block' : 'lesson' }),
  otherMeaning: () => undefined,
};

/** What is meant by the name of a block that is missing, as it is to be written: facts for the problem. */
export const meantInstead = (found: Missing, nearest = found.nearest) => ({
  nearest,
  ...(found.renamed ? { renamed: found.renamed } : {}),
});
