/** The techniques one course works with: those that ship, changed and added to by its own, or its own alone. */
import { type FormerNames, nearest, nearestNow } from '../diagnostics/nearest.ts';
import { CATALOGUE } from './catalogue.ts';
import type { TECHNIQUE_PROBLEMS } from './problems.ts';
import { type Technique, type TechniquesFile, techniqueOf } from './technique.ts';

/** The techniques a course can name, shipped and its own. */
export interface Repertoire {
  readonly techniques: readonly Technique[];
  readonly byId: ReadonlyMap<string, Technique>;
  /** For each technique the wider ones it is a kind of, at any remove. */
  readonly wider: ReadonlyMap<string, readonly string[]>;
  /** For each technique those that are kinds of it, at any remove. */
  readonly narrower: ReadonlyMap<string, readonly string[]>;
  /** Ids that techniques had before. */
  readonly former: FormerNames;
}

type Problems = typeof TECHNIQUE_PROBLEMS;

/** Something wrong at a path of the techniques file, such as `techniques`, 2, `kind-of`, 0. */
export type TechniqueProblem = {
  [Code in keyof Problems]: {
    readonly code: Code;
    readonly path: readonly (string | number)[];
    readonly facts: Parameters<Problems[Code]['message']>[0];
  };
}[keyof Problems];

/** The ways one technique names others, as written and as read. */
const NAMES = [
  ['requires', 'requires'],
  ['kind-of', 'kindOf'],
] as const;

/**
 * The techniques of a course from its file. One with a fault keeps what is sound of it, if only its name, so that a single
 * mistake does not take along whatever names it.
 */
export function repertoireFromFile(file: TechniquesFile): {
  readonly repertoire: Repertoire;
  readonly faults: readonly TechniqueProblem[];
} {
  const faults: TechniqueProblem[] = [];
  const known = new Map(
    file.catalogue === 'extend' ? CATALOGUE.map((technique): [string, Technique] => [technique.id, technique]) : [],
  );
  const placeOf = new Map<string, number>();
  file.techniques.forEach((written, index) => {
    const path = ['techniques', index, 'id'];
    if (placeOf.has(written.id)) {
      faults.push({ code: 'technique-twice', path, facts: { id: written.id } });
      return;
    }
    placeOf.set(written.id, index);
    const shipped = known.get(written.id);
    const whole = { ...(shipped && writtenAgain(shipped)), ...present(written) };
    const missing = (['title', 'about', 'group', 'find'] as const).filter((key) => whole[key] === undefined);
    if (missing.length > 0) {
      const facts = { id: written.id, keys: missing, nearest: nearest(written.id, known.keys()) };
      faults.push({ code: 'technique-incomplete', path, facts });
    }
    const { title, about, group, find } = whole;
    const isWhole = title !== undefined && about !== undefined && group !== undefined && find !== undefined;
    known.set(
      written.id,
      isWhole ? techniqueOf({ ...whole, id: written.id, title, about, group, find }) : nameOnly(written.id),
    );
  });
  const former = new Map(file.techniques.flatMap(({ id, formerly = [] }) => formerly.map((old) => [old, id] as const)));
  for (const [id, index] of placeOf) {
    const technique = known.get(id);
    if (!technique) continue;
    for (const [key, field] of NAMES) {
      file.techniques[index]?.[key]?.forEach((other, place) => {
        if (known.has(other)) return;
        const facts = { id: other, ...nearestNow(other, known.keys(), former) };
        faults.push({ code: 'technique-unknown', path: ['techniques', index, key, place], facts });
      });
      const ring = ringFrom(id, (at) => known.get(at)?.[field] ?? []);
      // A cycle is reported once, at the first of its techniques in the file.
      const first = ring && Math.min(...ring.map((at) => placeOf.get(at) ?? Number.POSITIVE_INFINITY));
      if (ring && first === index) {
        faults.push({ code: 'technique-cycle', path: ['techniques', index, key], facts: { ids: ring, key } });
      }
    }
  }
  return { repertoire: repertoireOf([...known.values()].map((technique) => soundOf(technique, known))), faults };
}

type Written = TechniquesFile['techniques'][number];

const present = (written: Written): Partial<Written> =>
  Object.fromEntries(Object.entries(written).filter(([, value]) => value !== undefined));

const writtenAgain = ({ kindOf, ...rest }: Technique): Written => ({ ...rest, 'kind-of': kindOf });

/** A technique of which only the name is known: it is found nowhere. */
const nameOnly = (id: string): Technique =>
  techniqueOf({ id, title: id, about: id, group: 'tone', assumed: true, find: 'not-in-score' });

/** A technique without the names nobody knows. */
const soundOf = (technique: Technique, known: ReadonlyMap<string, Technique>): Technique => ({
  ...technique,
  requires: technique.requires.filter((id) => known.has(id)),
  kindOf: technique.kindOf.filter((id) => known.has(id)),
});

/** What to take care of with some techniques: their own cautions and those of what they are kinds of, each once. */
export function cautionsFor({ byId, wider }: Repertoire, ids: readonly string[]): string[] {
  const all = ids.flatMap((id) => [id, ...(wider.get(id) ?? [])]);
  return [...new Set(all.flatMap((id) => byId.get(id)?.cautions ?? []))];
}

/** A repertoire with its lookup tables, from techniques whose ids are unique. */
export function repertoireOf(techniques: readonly Technique[]): Repertoire {
  const byId = new Map(techniques.map((technique) => [technique.id, technique]));
  const wider = new Map(techniques.map(({ id }) => [id, reachable(id, (at) => byId.get(at)?.kindOf ?? [])]));
  const narrower = new Map<string, string[]>(techniques.map(({ id }) => [id, []]));
  for (const [id, ids] of wider) for (const wide of ids) narrower.get(wide)?.push(id);
  const former = new Map(techniques.flatMap(({ id, formerly = [] }) => formerly.map((old) => [old, id] as const)));
  return { techniques, byId, wider, narrower, former };
}

/** What can be reached from a name, nearest first and without itself. */
function reachable(from: string, next: (id: string) => readonly string[]): string[] {
  const found = new Set<string>();
  const queue = [...next(from)];
  for (let id = queue.shift(); id !== undefined; id = queue.shift()) {
    if (id === from || found.has(id)) continue;
    found.add(id);
    queue.push(...next(id));
  }
  return [...found];
}

/** The shortest way from a name back to itself (`a b a`), or undefined. */
function ringFrom(from: string, next: (id: string) => readonly string[]): string[] | undefined {
  const cameFrom = new Map<string, string>();
  const queue = [from];
  for (let id = queue.shift(); id !== undefined; id = queue.shift()) {
    for (const step of next(id)) {
      if (step === from) {
        const way = [step];
        for (let at: string | undefined = id; at !== undefined; at = cameFrom.get(at)) way.unshift(at);
        return way;
      }
      if (!cameFrom.has(step)) {
        cameFrom.set(step, id);
        queue.push(step);
      }
    }
  }
  return undefined;
}

/** The repertoire of a course without `techniques.yaml`. */
export const SHIPPED_REPERTOIRE: Repertoire = repertoireOf(CATALOGUE);
