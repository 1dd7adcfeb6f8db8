import { ALONE, type ReadContext } from './context.ts';
import { type Evaluated, evaluate } from './evaluate.ts';
import { parseBlock } from './parse.ts';

export { ALONE, type FoundBlock, type ReadContext } from './context.ts';

/** Reads a block's text: its score, or everything that is wrong with it. */
export const readBlock = (text: string, context: ReadContext = ALONE): Evaluated => evaluate(parseBlock(text), context);
