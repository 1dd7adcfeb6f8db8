import fc from 'fast-check';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { compareElements, type Edit } from '../../../src/browser/authoring/compare.ts';
import { cases } from '../../setup/long.ts';

const { document } = new JSDOM().window;
const body = (html: string): HTMLElement => {
  const made = document.implementation.createHTMLDocument();
  made.body.innerHTML = html;
  return made.body;
};
const shown = (node: Node): string => ('outerHTML' in node ? String(node.outerHTML) : (node.textContent ?? ''));
const inWords = (edit: Edit): string => {
  if (edit.kind === 'insert')
    return `insert ${shown(edit.next)} ${edit.before ? `before ${shown(edit.before)}` : 'at the end'}`;
  if (edit.kind === 'remove') return `remove ${shown(edit.old)}`;
  if (edit.kind === 'outlines') return 'outlines';
  return `${edit.kind} ${shown(edit.old)} → ${shown(edit.next)}`;
};
const edits = (before: string, after: string): string[] =>
  compareElements(body(before), body(after)).edits.map(inWords);

const player = (music: string) =>
  `<reedway-player><button>Hear</button><script type="application/json">${music}</script></reedway-player>`;
const block = (id: string, music: string, drawing = music) =>
  `<figure data-block="${id}" id="block-${id}"><div class="tab-block">${drawing}</div>${player(music)}</figure>`;

describe('the edits from one page to another', () => {
  test.each([
    ['nothing', '<p>a</p>', '<p>a</p>', []],
    ['words', '<p>a <b>b</b></p>', '<p>c <b>b</b></p>', ['replace a  → c ']],
    ['a part that comes', '<p>a</p><p>c</p>', '<p>a</p><p>b</p><p>c</p>', ['insert <p>b</p> before <p>c</p>']],
    ['a part that comes last', '<p>a</p>', '<p>a</p><p>b</p>', ['insert <p>b</p> at the end']],
    ['a part that goes', '<p>a</p><p>b</p><p>c</p>', '<p>a</p><p>c</p>', ['remove <p>b</p>']],
    [
      'another element',
      '<p>a</p>',
      '<ul><li>a</li></ul>',
      ['remove <p>a</p>', 'insert <ul><li>a</li></ul> at the end'],
    ],
    [
      'an address',
      '<p><a href="a">x</a></p>',
      '<p><a href="b">x</a></p>',
      ['attributes <a href="a">x</a> → <a href="b">x</a>'],
    ],
    [
      'what a script changes as a whole',
      '<div><scroll-box><i>a</i></scroll-box></div>',
      '<div><scroll-box><i>b</i></scroll-box></div>',
      ['replace <scroll-box><i>a</i></scroll-box> → <scroll-box><i>b</i></scroll-box>'],
    ],
    [
      'the drawing and the music of a block, which stays',
      `<p>x</p>${block('a', '1')}`,
      `<p>x</p>${block('a', '2')}`,
      [
        'drawing <div class="tab-block">1</div> → <div class="tab-block">2</div>',
        `music ${player('1')} → ${player('2')}`,
      ],
    ],
    [
      'a block that comes before another of the same numbers: the other one keeps its music',
      block('0', '1', 'x'),
      block('0', '2', 'y') + block('1', '1', 'z'),
      [
        `insert ${block('0', '2', 'y')} before ${block('0', '1', 'x')}`,
        `attributes ${block('0', '1', 'x')} → ${block('1', '1', 'z')}`,
        'drawing <div class="tab-block">x</div> → <div class="tab-block">z</div>',
      ],
    ],
    [
      'the choice of a harp, whose script goes on',
      '<harp-choice data-position="1"><i>a</i></harp-choice>',
      '<harp-choice data-position="2"><i>a</i></harp-choice>',
      [
        'attributes <harp-choice data-position="1"><i>a</i></harp-choice> → <harp-choice data-position="2"><i>a</i></harp-choice>',
      ],
    ],
    [
      'a page whose script works on all of it',
      '<main><path-view></path-view><p>a</p></main>',
      '<main><path-view></path-view><p>b</p></main>',
      ['replace <main><path-view></path-view><p>a</p></main> → <main><path-view></path-view><p>b</p></main>'],
    ],
    [
      'outlines, of which none is taken away',
      '<svg class="sheet"><defs><path id="a"></path></defs></svg>',
      '<svg class="sheet"><defs><path id="b"></path></defs></svg>',
      ['outlines'],
    ],
  ])('%s', (_, before, after, wanted) => {
    expect(edits(before, after)).toEqual(wanted);
  });
});

/** Applies edits to the earlier page itself. */
function applied(before: HTMLElement, after: HTMLElement): string {
  const own = new Map<Node, ChildNode>();
  const copy = (node: Node): ChildNode => before.ownerDocument.importNode(node, true) as ChildNode;
  for (const edit of compareElements(before, after).edits) {
    if (edit.kind === 'remove') edit.old.remove();
    else if (edit.kind === 'insert')
      edit.parent.insertBefore(copy(edit.next), edit.before ? (own.get(edit.before) ?? edit.before) : null);
    else if (edit.kind === 'attributes') {
      for (const { name } of [...edit.old.attributes]) edit.old.removeAttribute(name);
      for (const { name, value } of edit.next.attributes) edit.old.setAttribute(name, value);
    } else if (edit.kind !== 'outlines') {
      const next = copy(edit.next);
      own.set(edit.old, next);
      edit.old.replaceWith(next);
    }
  }
  return before.innerHTML;
}

const { tree } = fc.letrec<{ tree: string; parts: string }>((tie) => ({
  tree: fc.array(tie('parts'), { maxLength: 5 }).map((parts) => parts.join('')),
  parts: fc.oneof(
    { maxDepth: 3, depthSize: 'small' },
    fc.constantFrom('one', 'two', '<br>', '<img src="a">', '<scroll-box>a</scroll-box>', '<scroll-box>b</scroll-box>'),
    fc.tuple(fc.constantFrom('a', 'b', 'c'), fc.constantFrom('1', '2')).map(([id, music]) => block(id, music)),
    fc
      .tuple(
        fc.constantFrom('div', 'ul', 'section'),
        fc.constantFrom('', ' id="x"', ' class="y"', ' title="z"'),
        tie('tree'),
      )
      .map(([name, attributes, inside]) => `<${name}${attributes}>${inside}</${name}>`),
  ),
}));

test('the edits of any two pages make the one of the other', () => {
  fc.assert(
    fc.property(tree, tree, (before, after) => {
      const next = body(after);
      expect(applied(body(before), next)).toBe(next.innerHTML);
    }),
    { numRuns: cases(60, 2000) },
  );
});
