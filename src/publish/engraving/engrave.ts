/** Engraves scores for pages, keeping the drawings of bars: those that many blocks share are drawn once. */
import { engraveBlock, type TileCache } from '../../engrave/block.ts';
import { ALONE } from '../../notation/context.ts';
import { readBlock } from '../../notation/read.ts';
import type { Engraver } from '../../site/engraver.ts';
import { type BlockEngraver, engraver, NO_ID } from './engraver.ts';
import type { RecordStore } from './record-store.ts';

/** A block engraver that takes drawings of single bars from a store. */
export function blockEngraverWith(store: RecordStore): BlockEngraver {
  const cache = tilesIn(store);
  return {
    score: (score) => engraveBlock(score, { id: NO_ID, cache }),
    text(text) {
      const { score, diagnostics } = readBlock(text, ALONE);
      if (score) return engraveBlock(score, { id: NO_ID, cache });
      throw new Error(`An example cannot be read: ${diagnostics.map(({ message }) => message).join(' ')}\n${text}`);
    },
  };
}

/** An engraver that does its work in this thread. */
export function engraverWith(store: RecordStore, progress?: (blocks: number) => void): Engraver {
  const blockEngraver = blockEngraverWith(store);
  return engraver({ store, blockEngraver: () => blockEngraver, progress });
}

function tilesIn(store: RecordStore): TileCache {
  const near = new Map<string, string>();
  return {
    get(key) {
      const tile = near.get(key) ?? store.get(key);
      if (tile !== undefined) near.set(key, tile);
      return tile;
    },
    set(key, tile) {
      near.set(key, tile);
      store.put(key, tile);
    },
  };
}
