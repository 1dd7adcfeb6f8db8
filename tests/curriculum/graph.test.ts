import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  components,
  type Edge,
  edgesOf,
  graphOf,
  orderOf,
  reachabilityOf,
  reaches,
  reduce,
  shortestCycle,
} from '../../src/curriculum/graph.ts';
import { itemAt } from '../../src/values/checked.ts';

const graphs = (cyclic: boolean) =>
  fc.integer({ min: 1, max: 14 }).chain((size) => {
    const node = fc.nat({ max: size - 1 });
    const edges = fc.array(fc.tuple(node, node), { maxLength: 3 * size });
    return fc.record({
      size: fc.constant(size),
      edges: cyclic
        ? edges
        : edges.map((list) => list.filter(([a, b]) => a !== b).map(([a, b]): Edge => (a < b ? [a, b] : [b, a]))),
      rank: fc.shuffledSubarray(
        Array.from({ length: size }, (_, i) => i),
        { minLength: size, maxLength: size },
      ),
    });
  });
const identity = (size: number) => Array.from({ length: size }, (_, i) => i);

/** What can be reached from what, by walking. */
function closure(size: number, edges: readonly Edge[]): boolean[][] {
  const reach = identity(size).map(() => Array<boolean>(size).fill(false));
  for (const [from, to] of edges) itemAt(reach, from)[to] = true;
  for (let via = 0; via < size; via++)
    for (let a = 0; a < size; a++)
      for (let b = 0; b < size; b++) if (reach[a]?.[via] && reach[via]?.[b]) itemAt(reach, a)[b] = true;
  return reach;
}

describe('a graph', () => {
  it('has each edge once, and none from a node to itself or out of range', () => {
    const graph = graphOf(3, [
      [0, 1],
      [0, 1],
      [1, 1],
      [2, 0],
      [0, 7],
      [-1, 0],
    ]);
    expect(edgesOf(graph)).toEqual([
      [0, 1],
      [2, 0],
    ]);
    expect(graph.before).toEqual([[2], [0], []]);
  });

  it('is in one component with what it reaches and is reached from', () => {
    fc.assert(
      fc.property(graphs(true), ({ size, edges }) => {
        const reach = closure(size, edges);
        const component = components(graphOf(size, edges));
        const together = identity(size).map((a) => identity(size).map((b) => component[a] === component[b]));
        const both = identity(size).map((a) =>
          identity(size).map((b) => a === b || (reach[a]?.[b] === true && reach[b]?.[a] === true)),
        );
        expect(together).toEqual(both);
      }),
    );
  });

  it('stands the depth of a long chain and a long ring', () => {
    const size = 100_000;
    const chain = identity(size - 1).map((i): Edge => [i, i + 1]);
    expect(new Set(components(graphOf(size, chain))).size).toBe(size);
    expect(new Set(components(graphOf(size, [...chain, [size - 1, 0]]))).size).toBe(1);
  });
});

describe('the order', () => {
  it('respects every edge and leaves no node out', () => {
    fc.assert(
      fc.property(graphs(false), ({ size, edges, rank }) => {
        const order = orderOf(graphOf(size, edges), rank);
        expect([...order].sort((a, b) => a - b)).toEqual(identity(size));
        for (const [from, to] of edges) expect(order.indexOf(from)).toBeLessThan(order.indexOf(to));
      }),
    );
  });

  it('is by rank where the edges leave it free: at each step the lowest that may come', () => {
    fc.assert(
      fc.property(graphs(false), ({ size, edges, rank }) => {
        const order = orderOf(graphOf(size, edges), rank);
        const done = new Set<number>();
        for (const node of order) {
          const free = identity(size).filter(
            (one) => !done.has(one) && edges.every(([a, b]) => b !== one || done.has(a)),
          );
          expect(rank[node]).toBe(Math.min(...free.map((one) => itemAt(rank, one))));
          done.add(node);
        }
      }),
    );
  });

  it('does not exist for a cycle', () => {
    expect(() =>
      orderOf(
        graphOf(2, [
          [0, 1],
          [1, 0],
        ]),
        [0, 1],
      ),
    ).toThrow(RangeError);
  });
});

describe('the shortest cycle', () => {
  it('is one, and none is shorter', () => {
    fc.assert(
      fc.property(graphs(true), ({ size, edges }) => {
        const graph = graphOf(size, edges);
        const proper = edgesOf(graph);
        const cycle = shortestCycle(graph, identity(size));
        const reach = closure(size, proper);
        const some = identity(size).some((node) => reach[node]?.[node]);
        expect(cycle !== undefined).toBe(some);
        if (!cycle) return;
        expect(cycle[0]).toBe(cycle.at(-1));
        expect(new Set(cycle.slice(1)).size).toBe(cycle.length - 1);
        for (let i = 1; i < cycle.length; i++) expect(graph.next[itemAt(cycle, i - 1)]).toContain(cycle[i]);
        expect(cycle.length - 1).toBe(shortestByPowers(size, proper));
      }),
    );
  });

  it('stays among the nodes it is asked about', () => {
    const graph = graphOf(4, [
      [0, 1],
      [1, 0],
      [1, 2],
      [2, 3],
      [3, 1],
    ]);
    expect(shortestCycle(graph, [1, 2, 3])).toEqual([1, 2, 3, 1]);
    expect(shortestCycle(graph, [2, 3])).toBeUndefined();
  });
});

/** The least number of steps after which some node can be back at itself. */
function shortestByPowers(size: number, edges: readonly Edge[]): number {
  let at = identity(size).map((node) => new Set([node]));
  for (let steps = 1; steps <= size; steps++) {
    at = at.map((nodes) => new Set(edges.filter(([from]) => nodes.has(from)).map(([, to]) => to)));
    if (at.some((nodes, node) => nodes.has(node))) return steps;
  }
  return Number.POSITIVE_INFINITY;
}

describe('the reduction', () => {
  it('reaches what the whole graph reaches, and no edge of it can be spared', () => {
    fc.assert(
      fc.property(graphs(false), ({ size, edges, rank }) => {
        const graph = graphOf(size, edges);
        const reduced = reduce(graph, reachabilityOf(graph, orderOf(graph, rank)));
        expect(closure(size, reduced)).toEqual(closure(size, edges));
        for (const edge of reduced) {
          const without = reduced.filter((one) => one !== edge);
          expect(closure(size, without)).not.toEqual(closure(size, edges));
        }
      }),
    );
  });

  it('has a closure that agrees with walking, across the word boundaries of its rows', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 70 }),
        fc.array(fc.tuple(fc.nat(69), fc.nat(69)), { maxLength: 120 }),
        (size, pairs) => {
          const edges = pairs.filter(([a, b]) => a < b && b < size);
          const graph = graphOf(size, edges);
          const reach = reachabilityOf(graph, orderOf(graph, identity(size)));
          const walked = closure(size, edges);
          expect(identity(size).map((x) => identity(size).map((y) => reaches(reach, x, y)))).toEqual(walked);
        },
      ),
      { numRuns: 20 },
    );
  });
});
