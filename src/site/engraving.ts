/** Engraves the blocks of a course, and keeps what was engraved: whole blocks, and the drawings of bars that many share. */
import { createHash } from 'node:crypto';
import type { Block, Course, Lesson } from '../course/course.ts';
import { engraveBlock, glyphSheet, type TileCache } from '../engrave/block.ts';
import { ALONE } from '../notation/context.ts';
import { readBlock } from '../notation/read.ts';
import { blockParts } from './addresses.ts';
import type { Engraved, Engraver } from './engraver.ts';
import type { Pack } from './pack.ts';

/** `progress` is told how many blocks have been asked for so far. */
export function engraverWith(pack: Pack, progress?: (blocks: number) => void): Engraver {
  const tiles = tilesIn(pack);
  const asked = new Set<Block>();
  const keys = new WeakMap<Course, ReturnType<typeof keysOf>>();
  return {
    block(course, lesson, block, id = blockParts(block.id)) {
      if (!block.score) return undefined;
      if (progress && asked.size < asked.add(block).size) progress(asked.size);
      const keyOf = keys.get(course) ?? keysOf(course);
      keys.set(course, keyOf);
      const key = keyOf(lesson, block, id);
      const kept = pack.get(key);
      if (kept !== undefined) return JSON.parse(kept) as Engraved;
      const engraved = engraveBlock(block.score, { id, cache: tiles });
      pack.put(key, JSON.stringify(engraved));
      return engraved;
    },
    example(id, text) {
      const { score, diagnostics } = readBlock(text, ALONE);
      if (!score)
        throw new Error(`The example ${id} cannot be read: ${diagnostics.map(({ message }) => message).join(' ')}`);
      return engraveBlock(score, { id: `x-${id}`, cache: tiles });
    },
    sheet: glyphSheet,
  };
}

function tilesIn(pack: Pack): TileCache {
  const near = new Map<string, string>();
  return {
    get(key) {
      const tile = near.get(key) ?? pack.get(key);
      if (tile !== undefined) near.set(key, tile);
      return tile;
    },
    set(key, tile) {
      near.set(key, tile);
      pack.put(key, tile);
    },
  };
}

/**
 * A key for each block of a course: a digest of all its score was read from (its text, the settings it starts from, the
 * course's tables, and the same of every block it quotes) and its name on the page.
 */
function keysOf(course: Course): (lesson: Lesson, block: Block, id: string) => string {
  const tables = digest(JSON.stringify([course.tunings, course.forms]));
  const settings = new Map<Lesson, string>();
  const sources = new Map<Block, string>();
  return (lesson, block, id) => digest(id, sourceOf(lesson, block));

  function sourceOf(lesson: Lesson, block: Block): string {
    const known = sources.get(block);
    if (known !== undefined) return known;
    const quoted = block.quotes.map(({ lesson: id, block: name }) => {
      const other = course.byId.get(id);
      const found = other?.blocks.find((one) => one.id === name);
      return other && found ? sourceOf(other, found) : '';
    });
    const source = digest(tables, settingsOf(lesson), block.text, ...quoted);
    sources.set(block, source);
    return source;
  }

  function settingsOf(lesson: Lesson): string {
    const known = settings.get(lesson) ?? digest(JSON.stringify(lesson.defaults));
    settings.set(lesson, known);
    return known;
  }
}

function digest(...parts: string[]): string {
  const hash = createHash('sha256');
  // Each part's length before it: no two lists of parts run together the same.
  for (const part of parts) hash.update(`${part.length}:`).update(part);
  return hash.digest('base64');
}
