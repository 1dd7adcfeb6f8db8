import type { TextSpan } from '../diagnostics/diagnostic.ts';
import { itemAt } from '../values/checked.ts';

/**
 * Where the address of a link, image or definition is. The Markdown reader says what it is and where the whole
 * is; the address follows a `](` or `]:` and is taken for it only if it reads the same. Otherwise it is the whole.
 */
export function destinationSpan(source: string, whole: TextSpan, url: string): TextSpan {
  const text = source.slice(whole.from, whole.to);
  if (text === url || text === `<${url}>`) return whole;
  for (const mark of text.matchAll(/\](?:\(|:)\s*(<[^>\r\n]*>|(?:\\.|[^\s\\])*)/g)) {
    const written = itemAt(mark, 1);
    const from = whole.from + mark.index + mark[0].length - written.length;
    if (written.startsWith('<')) {
      if (unescaped(written.slice(1, -1)) === url) return { from: from + 1, to: from + written.length - 1 };
    } else {
      const bare = withoutClosing(written);
      if (unescaped(bare) === url) return { from, to: from + bare.length };
    }
  }
  return whole;
}

/** An inline address ends before the parenthesis that closes the link; those it opens itself belong to it. */
function withoutClosing(written: string): string {
  let depth = 0;
  for (let at = 0; at < written.length; at++) {
    if (written[at] === '\\') at++;
    else if (written[at] === '(') depth++;
    else if (written[at] === ')' && depth-- === 0) return written.slice(0, at);
  }
  return written;
}

const unescaped = (text: string): string => text.replace(/\\([!-/:-@[-`{-~])/g, '$1').replaceAll('&amp;', '&');
