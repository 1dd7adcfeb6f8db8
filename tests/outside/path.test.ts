/**
 * The order of a path, its rings and its transitive reduction, against two programs made by others: tred of Graphviz
 * (Debian's package graphviz; "transitive reduction filter for directed graphs", its manual page), and the algorithms of
 * the library @dagrejs/graphlib. Both are given the same graphs as `reedway path --dot` or as plain edges.
 */
import { alg, Graph } from '@dagrejs/graphlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEMO } from '../../src/command/package.ts';
import { loadCourse } from '../../src/course/load.ts';
import {
  components,
  type Edge,
  edgesOf,
  graphOf,
  orderOf,
  reachabilityOf,
  reduce,
} from '../../src/curriculum/graph.ts';
import { itemAt } from '../../src/values/checked.ts';
import { typed } from '../command/some-terminal.ts';
import { run } from '../setup/debian.ts';
import { cases } from '../setup/long.ts';

/** The edges of what tred prints: one to a line, names quoted or bare. */
function tred(dot: string): string[] {
  const out = run('tred', [], { input: dot });
  return [...out.matchAll(/^\s*("(?:[^"\\]|\\.)*"|\w+) -> ("(?:[^"\\]|\\.)*"|\w+)/gm)]
    .map(([, from, to]) => `${bare(from)} ${bare(to)}`)
    .sort();
}
const bare = (name = ''): string => name.replace(/^"|"$/g, '');
const dotOf = (edges: readonly Edge[]): string => `digraph { ${edges.map(([a, b]) => `${a} -> ${b}`).join('; ')} }`;

function graphlib(size: number, edges: readonly Edge[]): Graph {
  const graph = new Graph({ directed: true });
  for (let node = 0; node < size; node++) graph.setNode(`${node}`);
  for (const [from, to] of edges) graph.setEdge(`${from}`, `${to}`);
  return graph;
}

const sized = (most: number) => fc.integer({ min: 2, max: most });
const acyclic = sized(80).chain((size) =>
  fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 4 * size }).map((pairs) => ({
    size,
    edges: pairs.filter(([a, b]) => a !== b).map(([a, b]): Edge => (a < b ? [a, b] : [b, a])),
  })),
);
const any = sized(40).chain((size) =>
  fc.array(fc.tuple(fc.nat(size - 1), fc.nat(size - 1)), { maxLength: 2 * size }).map((edges) => ({ size, edges })),
);
const identity = (size: number) => Array.from({ length: size }, (_, i) => i);

describe('against tred', () => {
  it('the reduction is the same', () => {
    fc.assert(
      fc.property(acyclic, ({ size, edges }) => {
        const graph = graphOf(size, edges);
        const ours = reduce(graph, reachabilityOf(graph, orderOf(graph, identity(size))))
          .map((edge) => edge.join(' '))
          .sort();
        expect(ours).toEqual(tred(dotOf(edgesOf(graph))));
      }),
      { numRuns: cases(25, 200) },
    );
  });

  it('the demo’s path shows the same steps', async () => {
    const { out, code } = await typed(['path', DEMO, '--dot']);
    expect(code).toBe(0);
    const { path } = loadCourse(DEMO);
    const ours = [...path.steps].flatMap(([to, { needs }]) => needs.map((from) => `${from} ${to}`));
    expect(tred(out)).toEqual(ours.sort());
  });
});

describe('against graphlib', () => {
  it('the order breaks no edge: the graph stays without a ring when each is tied to the next', () => {
    fc.assert(
      fc.property(acyclic, ({ size, edges }) => {
        const order = orderOf(graphOf(size, edges), identity(size));
        const chain = order.slice(1).map((node, place): Edge => [itemAt(order, place), node]);
        expect(alg.isAcyclic(graphlib(size, [...edges, ...chain]))).toBe(true);
        const backwards = [...order].reverse();
        const wrong = backwards.slice(1).map((node, place): Edge => [itemAt(backwards, place), node]);
        if (graphOf(size, edges).next.some((list) => list.length > 0)) {
          expect(alg.isAcyclic(graphlib(size, [...edges, ...wrong]))).toBe(false);
        }
      }),
    );
  });

  it('the components are the same', () => {
    fc.assert(
      fc.property(any, ({ size, edges }) => {
        const component = components(graphOf(size, edges));
        const groups = new Map<number, string[]>();
        identity(size).forEach((node) => {
          const key = itemAt(component, node);
          groups.set(key, [...(groups.get(key) ?? []), `${node}`]);
        });
        const sorted = (list: Iterable<readonly string[]>) => [...list].map((group) => [...group].sort().join()).sort();
        expect(sorted(groups.values())).toEqual(sorted(alg.tarjan(graphlib(size, edges))));
      }),
    );
  });
});
