/** The lesson, stage or technique that is meant by a name nobody has. */
import { type FormerNames, type Known, knownNames, nearest } from '../diagnostics/nearest.ts';
import { plainWord } from './schema.ts';

/** Something that goes by an id, and is called by its title. */
interface Titled {
  readonly id: string;
  readonly title: string;
}

/** A name that is meant, and whether nothing else can be. */
export interface MeantName {
  readonly nearest: string | undefined;
  readonly certain: boolean;
  /** Whether it is what something was called before. */
  readonly renamed?: true;
}

/**
 * The one of some names that is meant. It is certain where only capitals, the ending of a file, its folder or marks around the name
 * are different, or where the title is written in the place of the id.
 */
export function nameMeant(written: string, known: readonly Titled[], former?: FormerNames): MeantName {
  const now = former?.get(written);
  if (now !== undefined) return { nearest: now, renamed: true, certain: true };
  const { byId, byTitle, names } = indexOf(known);
  const plain = plainWord(written)
    .replaceAll('\\', '/')
    .replace(/^(?:\.{0,2}\/)*(?:lessons\/)?/, '')
    .replace(/\.(?:mdx?|html)$/, '');
  const [only, ...others] = byId.get(plain) ?? byTitle.get(written.trim().toLowerCase()) ?? [];
  if (only !== undefined) return { nearest: only, certain: others.length === 0 };
  return { nearest: nearest(written, names), certain: false };
}

interface Index {
  /** Ids by what they are in small letters. */
  readonly byId: ReadonlyMap<string, readonly string[]>;
  readonly byTitle: ReadonlyMap<string, readonly string[]>;
  readonly names: readonly Known[];
}

/** Many names may be unknown among many known ones. */
const indexes = new WeakMap<readonly Titled[], Index>();

function indexOf(known: readonly Titled[]): Index {
  let index = indexes.get(known);
  if (!index) {
    const by = (nameOf: (one: Titled) => string) =>
      new Map(
        [...Map.groupBy(known, (one) => nameOf(one).toLowerCase())].map(([name, all]) => [
          name,
          all.map(({ id }) => id),
        ]),
      );
    index = { byId: by(({ id }) => id), byTitle: by(({ title }) => title), names: knownNames(known) };
    indexes.set(known, index);
  }
  return index;
}
