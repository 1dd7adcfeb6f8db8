/**
 * What differs between a page as it was sent and as it is sent now. Both are documents that no script has changed. The smallest parts
 * are those that scripts change as a whole: a figure, an element with a script of its own.
 */
import { align, type NameOf } from './align.ts';

/** One step from the page as it was sent to the page as it is now. `before` and `old` are nodes of the earlier document. */
export type Edit =
  | { readonly kind: 'replace'; readonly old: ChildNode; readonly next: Node }
  | { readonly kind: 'remove'; readonly old: ChildNode }
  /** In front of `before`, which stays or is replaced; at the end of `parent` where there is none. */
  | { readonly kind: 'insert'; readonly parent: Node; readonly before: Node | undefined; readonly next: Node }
  | { readonly kind: 'attributes'; readonly old: Element; readonly next: Element }
  /** The outlines that drawings of the page share. */
  | { readonly kind: 'outlines'; readonly next: Element }
  /** The drawing of a block that stays. */
  | { readonly kind: 'drawing'; readonly old: Element; readonly next: Element }
  /** What is played of a block that stays. */
  | { readonly kind: 'music'; readonly old: Element; readonly next: Element };

/** A node that stays on the page; `whole` where nothing below it changes. */
export interface Kept {
  readonly old: Node;
  readonly next: Node;
  readonly whole: boolean;
}

/** The way from one document to another. */
export interface Comparison {
  readonly edits: readonly Edit[];
  readonly kept: readonly Kept[];
}

/** Compares what is in two elements, such as the bodies of two documents. */
export function compareElements(old: Element, next: Element): Comparison {
  const edits: Edit[] = [];
  const kept: Kept[] = [];
  const found: Found = { edits, kept };
  if (old.isEqualNode(next)) kept.push({ old, next, whole: true });
  else compareInside(old, next, found);
  return found;
}

interface Found {
  readonly edits: Edit[];
  readonly kept: Kept[];
}

function compareInside(old: Element, next: Element, found: Found): void {
  found.kept.push({ old, next, whole: false });
  const [before, after] = [[...old.childNodes], [...next.childNodes]];
  const pairs = align<ChildNode>(before, after, [wholeOf, musicOf, kindOf]);
  const partners = new Map(pairs.map(([one, other]) => [other, one]));
  const staying = new Set(partners.values());
  for (const one of before) if (!staying.has(one)) found.edits.push({ kind: 'remove', old: one });
  for (const [index, one] of after.entries()) {
    const partner = partners.get(one);
    if (partner) {
      compareNodes(partner, one, found);
      continue;
    }
    const following = after.slice(index + 1).find((later) => partners.has(later));
    found.edits.push({ kind: 'insert', parent: old, before: following && partners.get(following), next: one });
  }
}

function compareNodes(old: ChildNode, next: ChildNode, found: Found): void {
  if (old.isEqualNode(next)) found.kept.push({ old, next, whole: true });
  else if (!isElement(old) || !isElement(next)) found.edits.push({ kind: 'replace', old, next });
  else if (old.matches('svg.sheet')) {
    found.edits.push({ kind: 'outlines', next });
    found.kept.push({ old, next, whole: true });
  } else if (isDrawing(old) || old.localName === PLAYER) {
    found.edits.push({ kind: isDrawing(old) ? 'drawing' : 'music', old, next });
  } else if (old.localName === 'harp-choice' && old.innerHTML === next.innerHTML) {
    found.edits.push({ kind: 'attributes', old, next });
    found.kept.push({ old, next, whole: true });
  } else if (isSealed(old) || isSealed(next)) found.edits.push({ kind: 'replace', old, next });
  else {
    if (!haveSameAttributes(old, next)) found.edits.push({ kind: 'attributes', old, next });
    compareInside(old, next, found);
  }
}

const PLAYER = 'reedway-player';
const BLOCK = 'figure[data-block]';
const DRAWING = `${BLOCK} > .tab-block`;
/** What scripts change inside, and media that would start again. */
const SEALED = 'figure, svg, script, style, select, video, audio, iframe, table, [data-said], [data-distinct]';

const isElement = (node: Node): node is Element => node.nodeType === 1;
const isDrawing = (element: Element): boolean => element.matches(DRAWING);

/** Whether an element is replaced as a whole where anything in it differs. */
export const isSealed = (element: Element): boolean =>
  !element.matches(BLOCK) &&
  (element.localName.includes('-') ||
    element.matches(SEALED) ||
    isDrawing(element) ||
    // Its script works on lists and a map elsewhere in the page.
    (element.localName === 'main' && element.querySelector('path-view') !== null));

/** The first name of nodes: all that they are. */
const wholeOf: NameOf<Node> = (node) => (isElement(node) ? node.outerHTML : `${node.nodeType} ${node.nodeValue}`);

/** A block whose number changed has the same music. */
const musicOf: NameOf<Node> = (node) =>
  isElement(node) && node.matches(BLOCK) ? node.querySelector(`${PLAYER} > script`)?.textContent : undefined;

/** The last name: nodes that have it may be made from one another. */
function kindOf(node: Node): string | undefined {
  if (!isElement(node)) return `${node.nodeType}`;
  if (isDrawing(node)) return 'drawing';
  return `${node.localName} ${node.id} ${node.classList[0] ?? ''} ${node.getAttribute('src') ?? ''}`;
}

const haveSameAttributes = (one: Element, other: Element): boolean =>
  one.attributes.length === other.attributes.length &&
  [...one.attributes].every(({ name, value }) => other.getAttribute(name) === value);
