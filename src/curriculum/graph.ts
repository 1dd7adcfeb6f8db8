/**
 * Directed graphs over the numbers 0 to n - 1, and what the path asks of them. An edge leads from what comes before to
 * what comes after; edges out of range or from a node to itself are left out by {@link graphOf}.
 */
import { itemAt, lastOf } from '../values/checked.ts';
/** A directed graph of the numbers from 0 to `size` - 1. */
export interface Graph {
  readonly size: number;
  readonly next: readonly (readonly number[])[];
  readonly before: readonly (readonly number[])[];
}

/** An arrow of a graph. */
export type Edge = readonly [from: number, to: number];

/** A graph without double edges; neighbours are in the order of the edges. */
export function graphOf(size: number, edges: Iterable<Edge>): Graph {
  const next: number[][] = Array.from({ length: size }, () => []);
  const before: number[][] = Array.from({ length: size }, () => []);
  const seen = new Set<number>();
  for (const [from, to] of edges) {
    if (from === to || next[from] === undefined || before[to] === undefined) continue;
    const key = from * size + to;
    if (seen.has(key)) continue;
    seen.add(key);
    next[from].push(to);
    before[to].push(from);
  }
  return { size, next, before };
}

/** All edges, by the node they leave. */
export const edgesOf = (graph: Graph): Edge[] =>
  graph.next.flatMap((targets, from) => targets.map((to): Edge => [from, to]));

/**
 * Strongly connected components, as the component of each node: two nodes share one where each can be reached from the
 * other. Tarjan's algorithm without recursion, since a path may be thousands of lessons long.
 */
export function components(graph: Graph): Int32Array {
  const { size, next } = graph;
  const component = new Int32Array(size).fill(-1);
  const index = new Int32Array(size).fill(-1);
  const low = new Int32Array(size);
  const at = new Int32Array(size);
  const stack: number[] = [];
  const calls: number[] = [];
  let count = 0;
  let found = 0;
  for (let root = 0; root < size; root++) {
    if (index[root] !== -1) continue;
    calls.push(root);
    while (calls.length > 0) {
      const node = lastOf(calls);
      if (index[node] === -1) {
        index[node] = low[node] = count++;
        stack.push(node);
      }
      const targets = itemAt(next, node);
      const target = targets[itemAt(at, node)];
      if (target !== undefined) {
        at[node] = itemAt(at, node) + 1;
        if (index[target] === -1) calls.push(target);
        else if (component[target] === -1) low[node] = Math.min(itemAt(low, node), itemAt(index, target));
        continue;
      }
      calls.pop();
      const caller = calls.at(-1);
      if (caller !== undefined) low[caller] = Math.min(itemAt(low, caller), itemAt(low, node));
      if (low[node] !== index[node]) continue;
      for (let member = stack.pop(); member !== undefined; member = stack.pop()) {
        component[member] = found;
        if (member === node) break;
      }
      found++;
    }
  }
  return component;
}

/** A shortest way round among some nodes, beginning and ending with the same one; undefined where there is none. */
export function shortestCycle(graph: Graph, among: readonly number[]): number[] | undefined {
  const inside = new Set(among);
  let best: number[] | undefined;
  for (const start of among) {
    // No cycle is shorter than two steps.
    if (best && best.length === 3) break;
    const way = wayRound(graph, start, inside, best ? best.length - 1 : Number.POSITIVE_INFINITY);
    if (way) best = way;
  }
  return best;
}

/** The shortest way from a node back to itself in fewer than `limit` steps, breadth first. */
function wayRound(graph: Graph, start: number, inside: ReadonlySet<number>, limit: number): number[] | undefined {
  const cameFrom = new Map<number, number>();
  let frontier = [start];
  for (let steps = 1; steps < limit && frontier.length > 0; steps++) {
    const reached: number[] = [];
    for (const node of frontier) {
      for (const target of graph.next[node] ?? []) {
        if (target === start) {
          const way = [start];
          for (let at: number | undefined = node; at !== undefined; at = cameFrom.get(at)) way.unshift(at);
          return way;
        }
        if (cameFrom.has(target) || !inside.has(target)) continue;
        cameFrom.set(target, node);
        reached.push(target);
      }
    }
    frontier = reached;
  }
  return undefined;
}

/**
 * The nodes in an order that respects every edge; among those that are free, the one of the lowest rank comes first.
 * `rank` is a permutation of the nodes' places. The graph must have no cycle: with one a RangeError is thrown.
 */
export function orderOf(graph: Graph, rank: ArrayLike<number>): number[] {
  const waiting = Int32Array.from(graph.before, (sources) => sources.length);
  const nodeAt = new Int32Array(graph.size);
  for (let node = 0; node < graph.size; node++) nodeAt[itemAt(rank, node)] = node;
  const free = minHeap();
  for (let node = 0; node < graph.size; node++) if (waiting[node] === 0) free.push(itemAt(rank, node));
  const order: number[] = [];
  for (let place = free.pop(); place !== undefined; place = free.pop()) {
    const node = itemAt(nodeAt, place);
    order.push(node);
    for (const target of graph.next[node] ?? []) {
      waiting[target] = itemAt(waiting, target) - 1;
      if (waiting[target] === 0) free.push(itemAt(rank, target));
    }
  }
  if (order.length < graph.size) throw new RangeError('a graph with a cycle has no order');
  return order;
}

/** Which nodes can be reached from which: a row of bits for each node. */
export interface Reach {
  readonly words: number;
  readonly bits: Uint32Array;
}

/** Whether `to` can be reached from `from` in one step or more. */
export const reaches = ({ words, bits }: Reach, from: number, to: number): boolean =>
  (itemAt(bits, from * words + (to >> 5)) & (1 << (to & 31))) !== 0;

/**
 * The closure of a graph without cycles: each row is the union of its neighbours' rows, last node first. 32 nodes fit a
 * word, so 3,000 lessons take a megabyte and some hundred thousand steps.
 */
export function reachabilityOf(graph: Graph, order: readonly number[]): Reach {
  const words = (graph.size + 31) >> 5;
  const bits = new Uint32Array(words * graph.size);
  for (let i = order.length - 1; i >= 0; i--) {
    const node = itemAt(order, i);
    const row = node * words;
    for (const target of graph.next[node] ?? []) {
      const other = target * words;
      for (let word = 0; word < words; word++) bits[row + word] = itemAt(bits, row + word) | itemAt(bits, other + word);
      bits[row + (target >> 5)] = itemAt(bits, row + (target >> 5)) | (1 << (target & 31));
    }
  }
  return { words, bits };
}

/** The edges that no longer path implies: the transitive reduction, which is unique for a graph without cycles. */
export function reduce(graph: Graph, reach: Reach): Edge[] {
  return edgesOf(graph).filter(
    ([from, to]) => !graph.next[from]?.some((other) => other !== to && reaches(reach, other, to)),
  );
}

/** A binary heap of numbers, the least on top. */
function minHeap() {
  const items: number[] = [];
  const at = (place: number): number => items[place] ?? Number.POSITIVE_INFINITY;

  function push(value: number): void {
    let place = items.length;
    items.push(value);
    for (let parent = (place - 1) >> 1; place > 0 && at(parent) > value; parent = (place - 1) >> 1) {
      items[place] = at(parent);
      place = parent;
    }
    items[place] = value;
  }

  function pop(): number | undefined {
    const top = items[0];
    const last = items.pop();
    if (last === undefined || items.length === 0) return top;
    let place = 0;
    for (;;) {
      const child = at(2 * place + 2) < at(2 * place + 1) ? 2 * place + 2 : 2 * place + 1;
      if (at(child) >= last) break;
      items[place] = at(child);
      place = child;
    }
    items[place] = last;
    return top;
  }
  return { push, pop };
}
