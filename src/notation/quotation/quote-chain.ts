/** The chain of quotations: which blocks and phrases are being read, and how many events may still follow. */
import type { BlockTree } from '../tree.ts';

/** More events than this come only from quotations of quotations that multiply. */
export const MOST_EVENTS = 20_000;

/** Quotations of quotations: more levels than this are a mistake, and thousands would fill the stack. */
export const MOST_LEVELS = 50;

/** A block that quotes itself, perhaps through others. */
export interface QuoteCycle {
  /** How deep on the way the cycle begins; 0 is the block one set out from. */
  readonly from: number;
  readonly names: readonly string[];
}

/** The blocks between one being read and what it quotes. */
export interface QuoteChain {
  readonly depth: number;
  /** The last cycle met, if any. */
  readonly cycle: QuoteCycle | undefined;
  /** Whether the chain has become too deep since it was last at its beginning. */
  readonly wasTooDeep: boolean;
  /** Steps into a block or a phrase of it; returns instead the cycle where that is already being read, or that it is too deep. */
  enter(tree: BlockTree, phrase: string | undefined, name: string): QuoteCycle | 'too-deep' | undefined;
  leave(): void;
  /** Counts one more event; true once there have been too many. */
  isTooLong(): boolean;
}

/** A chain that begins with a block. */
export function startQuoteChain(tree: BlockTree): QuoteChain {
  const stack: { tree: BlockTree; phrase: string | undefined; name: string }[] = [
    { tree, phrase: undefined, name: '' },
  ];
  let cycle: QuoteCycle | undefined;
  let events = 0;
  let wasTooDeep = false;
  return {
    get depth() {
      return stack.length - 1;
    },
    get cycle() {
      return cycle;
    },
    get wasTooDeep() {
      return wasTooDeep;
    },
    enter(other, phrase, name) {
      if (stack.length === 1) wasTooDeep = false;
      const from = stack.findIndex((step) => step.tree === other && step.phrase === phrase);
      if (from === -1 && stack.length > MOST_LEVELS) {
        wasTooDeep = true;
        return 'too-deep';
      }
      if (from === -1) {
        stack.push({ tree: other, phrase, name });
        return undefined;
      }
      cycle = { from, names: [name, ...stack.slice(from + 1).map((step) => step.name), name] };
      return cycle;
    },
    leave() {
      stack.pop();
    },
    isTooLong() {
      return ++events > MOST_EVENTS;
    },
  };
}
