/** What holds for markup we write: every element is closed, every attribute is quoted, no value is a mistake of the program. */
import { must } from './target.ts';

const VOID = new Set([
  'br',
  'hr',
  'img',
  'input',
  'link',
  'meta',
  'source',
  'track',
  'wbr',
  'area',
  'base',
  'col',
  'embed',
]);
const TAG = /<(\/?)([a-zA-Z][\w:-]*)((?:\s+[\w:.-]+(?:="[^"<]*")?)*)\s*(\/?)>/y;

/** Well-formed markup of our own, without comments and scripts. */
export function checkMarkup(html: string): void {
  const open: string[] = [];
  let at = 0;
  for (;;) {
    const next = html.indexOf('<', at);
    const text = html.slice(at, next === -1 ? undefined : next);
    must(!text.includes('>'), 'a sign of markup is escaped in text', () => text.slice(-200));
    if (next === -1) break;
    TAG.lastIndex = next;
    const tag = TAG.exec(html);
    must(tag !== null, 'markup consists of tags', () => html.slice(next, next + 200));
    if (!tag) return;
    const [whole, closing, name = '', attributes = '', closed] = tag;
    must(
      !/="[^"]*(?:NaN|undefined|Infinity|\[object)/.test(attributes),
      'no attribute is a mistake of the program',
      () => whole,
    );
    if (closing)
      must(open.pop() === name, 'elements are closed in order', () => html.slice(Math.max(0, next - 200), next + 40));
    else if (!closed && !VOID.has(name)) open.push(name);
    at = TAG.lastIndex;
  }
  must(open.length === 0, 'every element is closed', () => open);
}
