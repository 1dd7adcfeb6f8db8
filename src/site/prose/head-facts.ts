/** The harps and keys of a lesson, for the list at its head, which follows the student's harp as its sentences do. */
import type { Lesson } from '../../course/course.ts';
import type { HarpInline, Inline, KeyInline } from '../../engrave/inline/inline.ts';
import { printedKey } from '../../harmony/key.ts';
import { byUse } from '../harps.ts';
import { harpInWords } from '../in-words.ts';

/** One fact, by the name its place on the page has. */
export interface HeadFact<Kind extends Inline> {
  readonly id: string;
  readonly inline: Kind;
}

/** What the head of a lesson says of its blocks, the most used first. */
export interface HeadFacts {
  readonly harps: readonly HeadFact<HarpInline>[];
  readonly keys: readonly HeadFact<KeyInline>[];
}

/** The harps its blocks are written for, and the keys they are in. */
export function headFacts({ blocks }: Lesson): HeadFacts {
  const places = blocks.flatMap(({ score }) => {
    if (!score) return [];
    const { harp } = score;
    return score.bars.map(({ position, key }) => ({ harp, position, key, capital: false }));
  });
  const harps = byUse(places, ({ harp }) => harpInWords(harp, harp.tuning));
  const keys = byUse(places, ({ key }) => printedKey(key));
  return {
    harps: harps.map((place, index) => ({
      id: `harp-${index}`,
      inline: { kind: 'harp', ...place, fact: 'label', article: false },
    })),
    keys: keys.map((place, index) => ({ id: `key-${index}`, inline: { kind: 'key', ...place, fact: 'full' } })),
  };
}
