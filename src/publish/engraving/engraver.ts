/** Gives pages their engraved blocks: from the cache, from another thread that engraved them ahead of time, or engraved now. */
import { type BlockKey, blockKeys, exampleKey } from '../../course/block-key.ts';
import type { Block, Course } from '../../course/course.ts';
import { glyphSheet } from '../../engrave/sheet.ts';
import type { Score } from '../../score/score.ts';
import { blockParts } from '../../site/addresses.ts';
import type { Engraved, Engraver } from '../../site/engraver.ts';
import type { RecordStore } from './record-store.ts';

/** What does the engraving. Its ids begin with {@link NO_ID}. */
export interface BlockEngraver {
  score(score: Score): Engraved;
  text(text: string): Engraved;
}

/** What an engraver works with. */
export interface EngraverOptions {
  /** What was engraved before. */
  readonly store: RecordStore;
  /** Asked for when something has to be engraved at last: a build that finds everything kept never loads it. */
  readonly blockEngraver: () => BlockEngraver;
  /** What was engraved meanwhile by another thread. */
  readonly engravedAhead?: { get(key: string): Engraved | undefined };
  /** Called with the number of blocks requested so far. */
  readonly progress?: ((blocks: number) => void) | undefined;
}

/** An engraver for pages: each block is engraved once and stored. */
export function engraver({ store, blockEngraver, engravedAhead: ahead, progress }: EngraverOptions): Engraver {
  const keys = new WeakMap<Course, BlockKey>();
  const near = new Map<string, Engraved>();
  const asked = new Set<Block>();

  function engraved(key: string, make: () => Engraved): Engraved {
    const known = near.get(key) ?? readEngraved(store, key) ?? ahead?.get(key);
    if (known !== undefined) {
      near.set(key, known);
      return known;
    }
    const made = make();
    near.set(key, made);
    storeEngraved(store, key, made);
    return made;
  }

  return {
    block(course, lesson, block, id = blockParts(block.id)) {
      const { score } = block;
      if (!score) return undefined;
      if (progress && asked.size < asked.add(block).size) progress(asked.size);
      const keyOf = keys.get(course) ?? blockKeys(course);
      keys.set(course, keyOf);
      return named(
        engraved(keyOf(lesson, block), () => blockEngraver().score(score)),
        id,
      );
    },
    example: (id, text) =>
      named(
        engraved(exampleKey(text), () => blockEngraver().text(text)),
        `x-${id}`,
      ),
    sheet: glyphSheet,
    cached(key, make) {
      const known = store.get(key);
      if (known !== undefined) return known;
      const made = make();
      store.put(key, made);
      return made;
    },
  };
}

/** Stands for the beginning of every id in what is kept: the same music may be on many pages, under other names. */
export const NO_ID = 'ID';

const named = ({ html, glyphs }: Engraved, id: string): Engraved => ({
  // Only when it is asked for: a page collects the outlines of its blocks first.
  get html() {
    // Text has no plain quotation marks: this meets attributes alone.
    return html.replace(/="(#?)ID-/g, `="$1${id}-`);
  },
  glyphs,
});

/** A stored engraving; undefined if there is none. */
export function readEngraved(store: RecordStore, key: string): Engraved | undefined {
  const text = store.get(key);
  if (text === undefined) return undefined;
  const end = text.indexOf('\n');
  return { glyphs: text.slice(0, end).split(' ').filter(Boolean), html: text.slice(end + 1) };
}

/** Stores an engraving as one text: its glyphs in the first line, its HTML after it. */
export function storeEngraved(store: RecordStore, key: string, { html, glyphs }: Engraved): void {
  store.put(key, `${glyphs.join(' ')}\n${html}`);
}
