/** What is wrong with a tag that the reader of MDX cannot read, at the very sign. */
import type { TextEdit, TextSpan } from '../diagnostics/diagnostic.ts';
import { excerpt } from '../diagnostics/excerpt.ts';
import { COMPONENTS, WITH_CONTENT } from './component.ts';
import { valueMistake, type WritingMistake } from './value-mistake.ts';

/** Elements of HTML that hold nothing. */
const VOID: ReadonlySet<string> = new Set(['br', 'hr', 'img', 'wbr', 'col', 'source', 'track', 'input']);

/** A tag is looked through so far. */
const LONGEST = 5000;

const edit = (from: number, to: number, text: string): TextEdit => ({ span: { from, to }, text });

/** The first mistake in the tag that begins with the `<` at `from`; undefined where its signs are right. */
export function tagMistake(source: string, from: number): WritingMistake | undefined {
  const named = /<\/?([A-Za-z][\w.:-]*)(?=[\s/>{=,"“]|$)/y;
  named.lastIndex = from;
  const name = named.exec(source)?.[1];
  if (name === undefined || /^https?:/.test(name)) return signAlone(source, from);
  const limit = Math.min(source.length, from + LONGEST);
  const edits: TextEdit[] = [];
  let first: Omit<WritingMistake, 'edits'> | undefined;
  const found = (span: TextSpan, what: string, fix: string, ...removing: TextEdit[]): void => {
    first ??= { span, what, fix };
    edits.push(...removing);
  };
  let at = named.lastIndex;
  /** Where the last part of the tag ends. */
  let end = at;
  for (;;) {
    const gap = after(/\s*/y, at);
    // A paragraph ends at an empty line, and a tag with it.
    const isOver = gap >= limit || /(?:\r\n?|\n)[ \t]*(?:\r\n?|\n)/.test(source.slice(at, gap));
    at = gap;
    const sign = source.charAt(at);
    if (isOver || sign === '<') {
      if (!COMPONENTS.has(name) && !first && !source.slice(from, end).includes('=')) return signAlone(source, from);
      const last = source.charAt(end - 1);
      const missing = last === '/' ? '>' : ' />';
      found(
        { from, to: from + 1 + name.length },
        `The tag <${name}> that begins here has no end.`,
        `Write ${missing.trim()} behind its last attribute.`,
        edit(end, end, missing),
      );
      break;
    }
    if (sign === '>' || source.startsWith('/>', at)) break;
    if (sign === '/') at++;
    else if (sign === '\\') {
      found(
        { from: at, to: at + 1 },
        'A tag ends with a slash, not with a backslash.',
        'Write />',
        edit(at, at + 1, '/'),
      );
      at++;
    } else if (sign === ',' || sign === ';') {
      const blank = /\s/.test(source.charAt(at + 1)) ? '' : ' ';
      const what = 'Only spaces are between the attributes of a tag.';
      found({ from: at, to: at + 1 }, what, 'Remove this sign.', edit(at, at + 1, blank));
      at++;
    } else if (sign === '{') {
      at = bracesFrom(at);
    } else {
      const nameEnd = after(/[^\s=/>{,;:"'“”„‘’<]+/y, at);
      if (nameEnd === at) {
        found({ from: at, to: at + 1 }, `This sign does not belong in the tag <${name}>.`, 'Remove it.');
        return first;
      }
      const key = source.slice(at, nameEnd);
      at = after(/[ \t]*=\s*/y, nameEnd);
      const colon = at === nameEnd ? after(/[ \t]*:[ \t]*(?=["'“„])/y, nameEnd) : nameEnd;
      if (colon > nameEnd) {
        found(
          { from: nameEnd, to: colon },
          'An equals sign is between an attribute and its value.',
          `Write ${key}=`,
          edit(nameEnd, colon, '='),
        );
        at = colon;
      }
      if (at > nameEnd) at = valueFrom(key, at);
    }
    end = at;
    if (at > limit) break;
  }
  return first && { ...first, edits };

  function after(pattern: RegExp, start: number): number {
    pattern.lastIndex = start;
    return start + (pattern.exec(source)?.[0].length ?? 0);
  }

  /** Reads the value of an attribute, and gives where it ends. */
  function valueFrom(key: string, start: number): number {
    const mark = source.charAt(start);
    if (mark === '{') return bracesFrom(start);
    if (mark === '[') {
      const close = matching(start);
      if (close === undefined) return start + 1;
      const span = { from: start, to: close };
      found(
        span,
        'A list is in braces as well.',
        `Write ${key}={[…]}`,
        edit(start, start, '{'),
        edit(close, close, '}'),
      );
      return close;
    }
    if (/[“”„‟‘’«»]/.test(mark)) {
      const close = start + 1 + source.slice(start + 1, limit).search(/["“”„‘’«»\r\n]/);
      const value = source.slice(start + 1, close);
      if (close <= start || /[\r\n]/.test(source.charAt(close))) return after(/[^\s>]+/y, start);
      found(
        { from: start, to: close + 1 },
        'These are the quotation marks of a word processor.',
        `Write plain ones: ${key}="${excerpt(value)}"`,
        edit(start, start + 1, '"'),
        edit(close, close + 1, '"'),
      );
      return close + 1;
    }
    if (mark === '"' || mark === "'") {
      const close = source.indexOf(mark, start + 1);
      const inside = source.slice(start + 1, close < 0 ? limit : close);
      if (
        close >= 0 &&
        close < limit &&
        /[\s/>{,;]/.test(source.charAt(close + 1) || '>') &&
        !/\/>|\n[ \t]*\n/.test(inside)
      )
        return close + 1;
      const whole = /^[^\r\n]*?(?=\s+[\w-]+=["'{]|\s*\/?>)/.exec(source.slice(start + 1, limit))?.[0];
      const until = whole === undefined ? after(/[^\r\n]*/y, start) : start + 1 + whole.length;
      const removing = whole === undefined ? [] : [edit(until, until, mark)];
      const words = source.slice(start + 1, until);
      const fix = `Write ${key}=${mark}${excerpt(words)}${mark}`;
      found({ from: start, to: start + 1 }, 'The quotation mark that begins here is not closed.', fix, ...removing);
      return until;
    }
    const bare = after(/[^\s"'“”{}<>=]+?(?=\s|\/?>|["“”]|$)/y, start);
    const isHalf = /["“”]/.test(source.charAt(bare));
    const value = source.slice(start, bare);
    const what = isHalf
      ? 'The quotation mark before this value is missing.'
      : 'The value of an attribute is in quotation marks.';
    const closing = isHalf ? edit(bare, bare + 1, '"') : edit(bare, bare, '"');
    found(
      { from: start, to: isHalf ? bare + 1 : bare },
      what,
      `Write ${key}="${excerpt(value)}"`,
      edit(start, start, '"'),
      closing,
    );
    return isHalf ? bare + 1 : bare;
  }

  /** Reads a value in braces, and gives where it ends. */
  function bracesFrom(start: number): number {
    const close = matching(start);
    // Without its own closing brace it ends before that of the tag.
    const to =
      close === undefined
        ? start + (/^[\s\S]*?(?=\s*\/?>\s*(?:[\r\n]|$)|$)/.exec(source.slice(start, limit))?.[0].length ?? 0)
        : close - 1;
    // The brace of the tag may have been taken for one inside.
    const short =
      close === undefined && source.charAt(to - 1) === '}' ? valueMistake(source, start + 1, to - 1) : undefined;
    if (short?.edits) {
      found(short.span, short.what, short.fix, ...short.edits);
      return to;
    }
    const inner = valueMistake(source, start + 1, to);
    if (inner) {
      found(inner.span, inner.what, inner.fix, ...(inner.edits ?? []));
      if (!inner.edits) edits.length = 0;
    }
    if (close !== undefined) return close;
    const braces =
      source
        .slice(start + 1, to)
        .replace(/'[^']*'|"[^"]*"/g, '')
        .match(/[{}]/g) ?? [];
    const depth = braces.reduce((sum, sign) => sum + (sign === '{' ? 1 : -1), 0);
    // With as many closing as opening ones inside, the outer one is missing; with one more opening, the inner took it.
    if (depth === 0 || inner)
      found(
        { from: start, to: start + 1 },
        'The { that begins here is not closed.',
        'Write its } where the value ends.',
        edit(to, to, '}'),
      );
    return to;
  }

  /** Behind the bracket that closes the one at `start`; undefined where the signs do not match. */
  function matching(start: number): number | undefined {
    const token = /'(?:\\.|[^'\\\r\n])*'|"(?:\\.|[^"\\\r\n])*"|`[^`]*`|[[\]{}]/g;
    token.lastIndex = start;
    let depth = 0;
    for (let match = token.exec(source); match && match.index < limit; match = token.exec(source)) {
      if (/^["'`]/.test(match[0])) continue;
      depth += match[0] === '{' || match[0] === '[' ? 1 : -1;
      if (depth === 0) return match[0] === (source.charAt(start) === '{' ? '}' : ']') ? token.lastIndex : undefined;
    }
    return undefined;
  }
}

/** A `<` that begins no tag. */
function signAlone(source: string, from: number): WritingMistake {
  const next = source.charAt(from + 1);
  const address = /^<((?:https?:\/\/|mailto:)?[^\s<>]+)>/.exec(source.slice(from, from + 1000))?.[1];
  if (
    address !== undefined &&
    (/^(?:https?:\/\/|mailto:)/.test(address) || /^[^@\s]+@[^@\s]+\.[a-z]{2,}$/i.test(address))
  ) {
    const target = address.includes('@') && !address.includes(':') ? `mailto:${address}` : address;
    const span = { from, to: from + address.length + 2 };
    return {
      span,
      what: 'An address between < and > is no link in MDX.',
      fix: `Write [${excerpt(address)}](${excerpt(target)})`,
      edits: [edit(span.from, span.to, `[${address}](${target})`)],
    };
  }
  const word = /^<\/?[\w.:-]*/.exec(source.slice(from, from + 80))?.[0] ?? '<';
  return {
    span: { from, to: from + word.length },
    what: 'A < begins a component here, and what follows is none.',
    fix: 'For the sign itself write \\< , and a web address as [text](https://…).',
    ...(/[A-Za-z/!?]/.test(next) ? {} : { edits: [edit(from, from, '\\')] }),
  };
}

/** A tag that has to be closed at once, for it holds nothing; undefined for one that may hold something. */
export function unclosedTag(source: string, from: number, name: string): WritingMistake | undefined {
  if (!VOID.has(name) && !(COMPONENTS.has(name) && !WITH_CONTENT.has(name))) return undefined;
  const tag = /^<(?:"[^"]*"|'[^']*'|[^"'>])*>/.exec(source.slice(from, from + LONGEST))?.[0];
  if (tag === undefined) return undefined;
  const end = from + tag.length - 1;
  const short = tag.length > 60 ? `<${name} … />` : `${tag.slice(0, -1).trimEnd()} />`;
  return {
    span: { from, to: from + (/^<[\w.:-]*>?/.exec(tag)?.[0].length ?? 1) },
    what: `The ${VOID.has(name) ? 'element' : 'component'} <${name}> that begins here is not closed.`,
    fix: `Write ${short}`,
    edits: [edit(end, end, source.charAt(end - 1) === ' ' ? '/' : ' /')],
  };
}
