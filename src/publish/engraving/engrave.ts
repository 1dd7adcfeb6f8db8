/** Engraves scores for pages in this thread. */
import { engraveBlock } from '../../engrave/block.ts';
import { ALONE } from '../../notation/context.ts';
import { readBlock } from '../../notation/read.ts';
import type { Engraver } from '../../site/engraver.ts';
import { type BlockEngraver, engraver, NO_ID } from './engraver.ts';
import type { RecordStore } from './record-store.ts';

/** Engraves blocks one by one. */
export const blockEngraver: BlockEngraver = {
  score: (score) => engraveBlock(score, { id: NO_ID }),
  text(text) {
    const { score, diagnostics } = readBlock(text, ALONE);
    if (score) return engraveBlock(score, { id: NO_ID });
    throw new Error(`An example cannot be read: ${diagnostics.map(({ message }) => message).join(' ')}\n${text}`);
  },
};

/** An engraver that does its work in this thread. */
export const engraverWith = (store: RecordStore, progress?: (blocks: number) => void): Engraver =>
  engraver({ store, blockEngraver: () => blockEngraver, progress });
