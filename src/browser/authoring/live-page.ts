/** The page that is shown, which scripts and its reader have changed, and how it takes over what was sent again. */
import { MUSIC_EVENT } from '../player/edited-music.ts';
import { type Comparison, compareElements, type Edit, isSealed } from './compare.ts';
import { updateHead } from './head.ts';
import { keepingPlace, takingOver } from './keep.ts';

/** The page of this window. */
export interface LivePage {
  /**
   * Changes the page to what was sent; returns whether anything differed. Throws where that cannot be done: the page then has to be
   * loaded again.
   */
  update(next: Document): boolean;
}

/** Call it before any other script of the page has run. */
export function followPage(): LivePage {
  /** What is on the page of a node that was sent. */
  const live = new WeakMap<Node, Node>();
  let sent = asSent();

  link(sent.documentElement, document.documentElement);

  /** Nodes that are the same: what is in them is known as well, down to what scripts change. */
  function link(from: Node, to: Node): void {
    live.set(from, to);
    if (from instanceof Element && isSealed(from)) return;
    for (const [index, child] of from.childNodes.entries()) {
      const own = to.childNodes[index];
      if (own) link(child, own);
    }
  }

  function relink(old: Node, next: Node, whole: boolean): void {
    const own = live.get(old);
    if (own) live.set(next, own);
    if (!whole || (next instanceof Element && isSealed(next))) return;
    for (const [index, child] of next.childNodes.entries()) {
      const before = old.childNodes[index];
      if (before) relink(before, child, true);
    }
  }

  function onPage(node: Node): Node {
    const own = live.get(node);
    if (own?.isConnected) return own;
    // A drawing is another one after it was drawn for another harp.
    const figure = node.parentNode && live.get(node.parentNode);
    const drawn = figure instanceof Element ? figure.querySelector(':scope > .tab-block') : null;
    if (drawn && node instanceof Element && node.matches('.tab-block')) return drawn;
    throw new Error('a part of the page is not where it was');
  }

  function update(next: Document): boolean {
    if (!sent.documentElement.cloneNode().isEqualNode(next.documentElement.cloneNode()))
      throw new Error('the whole page is another');
    const isOther = updateHead(sent, next);
    const comparison = compareElements(sent.body, next.body);
    if (comparison.edits.length > 0) keepingPlace(stayingIn(comparison), () => comparison.edits.forEach(apply));
    for (const { old, next: now, whole } of comparison.kept) relink(old, now, whole);
    sent = next;
    return isOther || comparison.edits.length > 0;
  }

  /** What can say where the reader is. */
  const stayingIn = ({ kept, edits }: Comparison): Element[] =>
    [
      ...kept.map(({ old }) => old),
      ...edits.map((edit) => (edit.kind === 'attributes' ? edit.old : undefined)),
    ].flatMap((old) => {
      const own = old && live.get(old);
      return own instanceof Element ? [own] : [];
    });

  function apply(edit: Edit): void {
    if (edit.kind === 'remove') onPage(edit.old).parentNode?.removeChild(onPage(edit.old));
    else if (edit.kind === 'insert') {
      const { parent, before, next } = edit;
      onPage(parent).insertBefore(made(next), before ? onPage(before) : null);
    } else if (edit.kind === 'attributes') setAttributes(onPage(edit.old), edit.old, edit.next);
    else if (edit.kind === 'outlines') addOutlines(edit.next);
    else if (edit.kind === 'drawing') redrawn(edit.old, edit.next);
    else if (edit.kind === 'music' && changesMusic(onPage(edit.old), edit.next)) live.set(edit.next, onPage(edit.old));
    else replace(edit.old, edit.next);
  }

  function replace(old: Node, next: Node): void {
    const before = onPage(old);
    const now = made(next);
    if (before instanceof Element && now instanceof Element) {
      takingOver(before, now, () => before.replaceWith(now));
    } else before.parentNode?.replaceChild(now, before);
    // What comes in front of it finds its place by it.
    live.set(old, now);
  }

  /** What stands beside a drawing for another harp goes with it. */
  function redrawn(old: Element, next: Element): void {
    const before = onPage(old);
    if (before instanceof Element) for (const said of notOnHarp(before)) said.remove();
    if (before.parentNode instanceof HTMLElement) delete before.parentNode.dataset['retuned'];
    replace(old, next);
  }

  /** A copy for this page, in which scripts will run. */
  function made(next: Node): Node {
    const copy = document.importNode(next, true);
    link(next, copy);
    const scripts =
      copy instanceof HTMLScriptElement ? [copy] : copy instanceof Element ? [...copy.querySelectorAll('script')] : [];
    for (const script of scripts) {
      const fresh = startable(script);
      if (!fresh) continue;
      if (script === copy) {
        live.set(next, fresh);
        return fresh;
      }
      script.replaceWith(fresh);
    }
    return copy;
  }

  return { update };
}

/** The page before its scripts have run. */
function asSent(): Document {
  const sent = document.implementation.createHTMLDocument();
  sent.replaceChild(sent.importNode(document.documentElement, true), sent.documentElement);
  // What the visitor chose was applied before the first paint (site/policy.ts).
  for (const choice of ['light', 'music']) delete sent.documentElement.dataset[choice];
  return sent;
}

/** A script of a copy, which a browser would not run; undefined where the page has it already, or it is data. */
function startable(script: HTMLScriptElement): HTMLScriptElement | undefined {
  const { src } = script;
  if (!src || [...document.scripts].some((own) => own.src === src)) return undefined;
  const fresh = document.createElement('script');
  for (const { name, value } of script.attributes) fresh.setAttribute(name, value);
  return fresh;
}

/** Whether the player of a block has been opened and goes on with other music. */
const changesMusic = (player: Node, next: Element): boolean =>
  player instanceof HTMLElement &&
  !player.querySelector(':scope > script') &&
  player.dispatchEvent(new CustomEvent(MUSIC_EVENT, { detail: next.querySelector('script')?.textContent ?? '' }));

/** Only what was sent differently is changed: scripts have attributes of their own, and a reader opens a fold. */
function setAttributes(own: Node, old: Element, next: Element): void {
  if (!(own instanceof Element)) throw new Error('a part of the page is of another kind');
  for (const { name } of [...old.attributes, ...next.attributes]) {
    const value = next.getAttribute(name);
    if (value === old.getAttribute(name)) continue;
    if (name === 'class') {
      own.classList.remove(...old.classList);
      own.classList.add(...next.classList);
    } else if (value === null) own.removeAttribute(name);
    else own.setAttribute(name, value);
  }
}

function addOutlines(sheet: Element): void {
  const own = document.querySelector('svg.sheet defs');
  if (!own) throw new Error('the page has no outlines');
  for (const outline of sheet.querySelectorAll('[id]'))
    if (!document.getElementById(outline.id)) own.append(document.importNode(outline, true));
}

/** What a block says below it of notes that the student's harp has not got. */
function notOnHarp(drawing: Element): Element[] {
  const next = drawing.nextElementSibling;
  return next?.matches('.not-on-harp') ? [next] : [];
}
