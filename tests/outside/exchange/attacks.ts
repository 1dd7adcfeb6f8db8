/** Attacks that files and oracle are compared by: which MIDI keys begin together, and when. */
import type { Sample } from '../oracle/oracle.ts';

/** Keys by their onset, in 960ths of a whole note from the first attack. */
export type Attacks = ReadonlyMap<number, readonly number[]>;

const PARTS = 960;

/** Collects attacks at places in whole notes, whatever place is called 0. */
export function attacksAt(found: readonly { readonly at: number; readonly keys: readonly number[] }[]): Attacks {
  const first = Math.min(...found.map(({ at }) => at));
  const attacks = new Map<number, number[]>();
  for (const { at, keys } of found) {
    const place = Math.round((at - first) * PARTS);
    attacks.set(
      place,
      [...(attacks.get(place) ?? []), ...keys].sort((a, b) => a - b),
    );
  }
  return attacks;
}

/** What the oracle says is played. */
export const playedBy = ({ played }: Sample): Attacks =>
  attacksAt(played.map(({ at: [n, d], midi }) => ({ at: n / d, keys: midi })));

/** In what two lists differ, one line each. A program may round a place to its own ticks, by `within` parts at most. */
export function differencesOf(ours: Attacks, theirs: Attacks, within = 1): string[] {
  const near = (attacks: Attacks, place: number): readonly number[] | undefined => {
    for (let off = 0; off <= within; off++) {
      const found = attacks.get(place + off) ?? attacks.get(place - off);
      if (found) return found;
    }
    return undefined;
  };
  const wrong = [...ours]
    .filter(([place, keys]) => String(near(theirs, place)) !== String(keys))
    .map(([place, keys]) => `at ${place}: ${keys}, in the file ${near(theirs, place) ?? 'nothing'}`);
  return ours.size === theirs.size ? wrong : [...wrong, `${ours.size} attacks, in the file ${theirs.size}`];
}
