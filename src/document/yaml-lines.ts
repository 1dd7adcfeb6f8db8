/**
 * Mistakes in YAML, found line by line where their author made them. A reader of YAML notices most of them lines later, in words about
 * its own work; here each line is taken for what its author must have meant: a key, an item of a list, or a text.
 */
import type { TextEdit } from '../diagnostics/diagnostic.ts';
import { ALL_KEYS } from './file-keys.ts';
import { edit, plainMistake, type YamlMistake } from './yaml-plain.ts';
import { afterFlow, afterQuotes, asQuoted, behindValue } from './yaml-value.ts';

interface Line {
  readonly from: number;
  /** Without what ends it. */
  readonly text: string;
  readonly indent: number;
}

/** What the lines of a group have in common: where they begin, and whether each is an item of a list. */
interface Level {
  readonly indent: number;
  readonly isList: boolean;
}

/** What the line before leaves open. */
type Before =
  | { readonly kind: 'nothing' }
  /** A key without a value, whose value is in the lines below it. */
  | { readonly kind: 'key'; readonly indent: number }
  /** A text, which goes on in lines further to the right. */
  | { readonly kind: 'text'; readonly indent: number; readonly plain: boolean };

const KEY = /^("[^"]*"|'[^']*'|[^\s:"'[\]{}#&*!|>%@`,][^:]*):(?=[ \t]|$)/;

/** The first mistake of a text; undefined where each line can be what it seems to be. Takes time by the length of the text. */
export function mistakeInLines(text: string): YamlMistake | undefined {
  const lines = linesOf(text);
  // All of it may be in brackets, where lines mean nothing.
  if (/^[[{]/.test(lines[0]?.text.trimStart() ?? '')) return undefined;
  const tab = tabIn(lines);
  if (tab) return tab;
  const levels: Level[] = [];
  let before: Before = { kind: 'nothing' };
  for (let number = 0; number < lines.length; number++) {
    const line = lines[number];
    if (!line) break;
    const found = readLine(line, number);
    if (found) return found;
  }
  return undefined;

  /** Reads one line, and moves on past the lines that its value goes on in. */
  function readLine(line: Line, number: number): YamlMistake | undefined {
    const { indent } = line;
    const content = line.text.slice(indent);
    const isItem = /^-(?:[ \t]|$)/.test(content);
    const isKey = KEY.test(content);
    if (before.kind === 'text' && indent > before.indent) {
      if (before.plain && (isKey || isItem)) return tooDeep(line, number, before.indent, isItem);
      return undefined;
    }
    if (before.kind === 'key' && !isKey && !isItem) {
      if (indent > before.indent) {
        const marks = wrongMarks(lines, number, line);
        if (marks) return marks;
        before = { kind: 'text', indent: before.indent, plain: false };
        return undefined;
      }
    }
    // No key begins with the mark of an item.
    const marked = isKey ? wrongMarks(lines, number, line) : undefined;
    if (marked) return marked;
    if (!isKey && !isItem) return content.startsWith('{') || content.startsWith('[') ? undefined : noKey(line, number);
    return align(line, number, isItem) ?? readEntry(line, indent, number);
  }

  /** Whether a line begins where one of its group does. */
  function align(line: Line, number: number, isItem: boolean): YamlMistake | undefined {
    const { indent } = line;
    if (before.kind === 'key' && (indent > before.indent || (isItem && indent === before.indent))) {
      levels.push({ indent, isList: isItem });
      return undefined;
    }
    if (levels.length === 0) {
      levels.push({ indent, isList: isItem });
      return undefined;
    }
    let inner: Level | undefined;
    for (let top = levels.at(-1); top && (top.indent > indent || (top.indent === indent && top.isList && !isItem)); ) {
      inner = top;
      levels.pop();
      top = levels.at(-1);
    }
    const level = levels.at(-1);
    if (level?.indent === indent && level.isList === isItem) return undefined;
    // A key below the dash of an item belongs to the item, whose keys begin behind the dash.
    if (inner?.isList && inner.indent === indent && !isItem) {
      const margin = behindDash(number, inner.indent);
      return shifted(line, number, margin - indent, {
        what: 'This key begins below the hyphen of its list item, so it is read as something beside the list.',
        fix: `Begin it as far right as the item’s first key, with ${spaces(margin)} before it.`,
      });
    }
    if (!level) {
      const first = lines[0];
      if (!first) return undefined;
      const edits = lines
        .slice(0, number)
        .map(({ from, indent: own }) => edit(from, from + Math.min(own, first.indent - indent), ''));
      return {
        span: { from: first.from, to: first.from + first.indent },
        what: 'This line is indented, and the keys below it that belong to the same group are not.',
        fix: 'Remove the spaces before it.',
        edits,
      };
    }
    const wanted = inner?.indent ?? level.indent;
    const nearest = inner && Math.abs(inner.indent - indent) <= Math.abs(indent - level.indent) ? wanted : level.indent;
    return shifted(line, number, nearest - indent, {
      what: `This line begins with ${spaces(indent)}, and no line above it that it can belong to does.`,
      fix: `Begin it with ${spaces(nearest)}, as the lines of its group above.`,
    });
  }

  /** Where the keys of an item begin: behind its hyphen. */
  function behindDash(number: number, indent: number): number {
    for (let at = number - 1; at >= 0; at--) {
      const line = lines[at];
      if (line?.indent === indent && line.text[indent] === '-')
        return indent + (/^-[ \t]*/.exec(line.text.slice(indent))?.[0].length ?? 2);
    }
    return indent + 2;
  }

  /** A key, or an item of a list and what is behind its hyphen. */
  function readEntry(line: Line, at: number, number: number): YamlMistake | undefined {
    let start = at;
    while (/^-(?:[ \t]|$)/.test(line.text.slice(start))) {
      const dash = start;
      start += /^-[ \t]*/.exec(line.text.slice(start))?.[0].length ?? 1;
      if (start >= line.text.length) {
        before = { kind: 'key', indent: dash };
        return undefined;
      }
      const rest = line.text.slice(start);
      if (KEY.test(rest)) levels.push({ indent: start, isList: false });
      else if (/^-[ \t]/.test(rest)) levels.push({ indent: start, isList: true });
      else return readValue(line, start, dash, number, undefined);
    }
    const [written = '', name = ''] = KEY.exec(line.text.slice(start)) ?? [];
    const key = name.trimEnd();
    const value = start + written.length + (/^[ \t]*/.exec(line.text.slice(start + written.length))?.[0].length ?? 0);
    return readValue(line, value, start, number, key);
  }

  /** The value that begins at a column; its entry begins at `indent`. */
  function readValue(
    line: Line,
    column: number,
    indent: number,
    number: number,
    key: string | undefined,
  ): YamlMistake | undefined {
    const rest = line.text.slice(column);
    const from = line.from + column;
    if (rest === '' || rest.startsWith('#')) {
      before = { kind: 'key', indent };
      return undefined;
    }
    if (/^[|>][-+\d]*[ \t]*(?:#.*)?$/.test(rest)) {
      before = { kind: 'text', indent, plain: false };
      return undefined;
    }
    const next = lines[number + 1];
    // What follows can only go on with this value where it is further to the right and no key of its own.
    const goesOn = next !== undefined && next.indent > indent && !KEY.test(next.text.slice(next.indent));
    const shown = (text: string): string => (key === undefined ? `- ${text}` : `${key}: ${text}`);
    const end = /^["']/.test(rest) ? afterQuotes(rest) : /^[[{]/.test(rest) ? afterFlow(rest) : undefined;
    before = { kind: 'text', indent, plain: end === undefined && !/^[&*!]/.test(rest) };
    if (end !== undefined && 'open' in end) {
      if (goesOn) return undefined;
      const closed = rest.slice(0, end.until) + end.close;
      return {
        span: { from: from + end.open, to: from + end.open + 1 },
        what: `The ${end.close === '"' || end.close === "'" ? 'quotation mark' : 'bracket'} that begins here is not closed.`,
        fix: `Write ${shown(closed)}`,
        // A line that was broken in two has the closing sign in its second half.
        ...(isClosedBelow(number, end.close) ? {} : { edits: [edit(from + end.until, from + end.until, end.close)] }),
      };
    }
    if (end !== undefined) {
      const behind = behindValue(rest, end.to);
      if (!behind) return undefined;
      const whole = rest.trimEnd();
      const isList = /^[[{]/.test(rest);
      const said = whole.endsWith(rest.charAt(0)) && !isList ? asQuoted(whole.slice(1, -1)) : asQuoted(whole);
      return {
        span: { from: from + behind.from, to: from + behind.to },
        what: isList
          ? 'A value that begins with a bracket is a list or a group, which is closed before this.'
          : 'The quotation mark before this ends the value, and more follows it.',
        fix: `Quote the whole value: ${shown(said)}`,
        edits: [edit(from, from + whole.length, said)],
      };
    }
    return plainMistake(rest, from, shown, key);
  }

  /** Whether the next line is the end of a value that was broken in two. */
  function isClosedBelow(number: number, close: string): boolean {
    const { text = '', indent = 0 } = lines[number + 1] ?? {};
    const content = text.slice(indent);
    return !KEY.test(content) && !/^-(?:[ \t]|$)/.test(content) && content.includes(close);
  }

  /** A line that is neither a key nor an item of a list. */
  function noKey(line: Line, number: number): YamlMistake | undefined {
    const { from, indent } = line;
    const content = line.text.slice(indent).trimEnd();
    // A second document is for the reader of YAML to refuse.
    if (/^(?:---|\.\.\.)/.test(content)) return undefined;
    const span = { from: from + indent, to: from + indent + content.length };
    const what = 'This line is no “key: value”.';
    const equals = /^([\w-]+)[ \t]*=[ \t]*(\S.*)$/.exec(content);
    if (equals) {
      const [, key = '', value = ''] = equals;
      const said = /: |^[@`%|>*&!]/.test(value) ? asQuoted(value) : value;
      const edits = sameFault(number, indent, /^([\w-]+)([ \t]*=[ \t]*)(?=\S)/, ': ');
      return { span, what, fix: `Write a colon in the place of the equals sign: ${key}: ${said}`, edits };
    }
    const unspaced = /^([\w-]+):(?!\/\/)(\S.*)$/.exec(content);
    if (unspaced) {
      const [, key = '', value = ''] = unspaced;
      const edits = sameFault(number, indent, /^([\w-]+)(:)(?=[^\s:/])/, ': ');
      return { span, what, fix: `Write a space behind the colon: ${key}: ${value}`, edits };
    }
    const words = /^([\w-]+)[ \t]+(\S.*)$/.exec(content);
    const [, key = '', value = ''] = words ?? [];
    if (!words) {
      const name = /^[\w-]+$/.test(content) && ALL_KEYS.has(content) ? content : undefined;
      if (name === undefined) return { span, what, fix: 'Write a colon and a space after the key.' };
      return { span, what, fix: `Write ${name}:`, edits: [edit(span.to, span.to, ':')] };
    }
    const known = ALL_KEYS.has(key);
    const gap = span.from + key.length;
    return {
      span,
      what,
      fix: known ? `Write a colon behind the key: ${key}: ${value}` : 'Write a colon and a space after the key.',
      ...(known ? { edits: [edit(gap, gap, ':')] } : {}),
    };
  }

  /** The same fault in this line and in all below it that begin as far left. */
  function sameFault(number: number, indent: number, fault: RegExp, instead: string): TextEdit[] {
    return lines.slice(number).flatMap((line) => {
      if (line.indent !== indent) return [];
      const [, key = '', sign = ''] = fault.exec(line.text.slice(indent)) ?? [];
      const at = line.from + indent + key.length;
      return sign === '' ? [] : [edit(at, at + sign.length, instead)];
    });
  }

  function tooDeep(line: Line, number: number, indent: number, isItem: boolean): YamlMistake {
    const what = 'This line is indented further than the one above it, so it is read as going on with its value.';
    // The line above may begin with a hyphen, behind which its keys begin.
    return {
      ...shifted(line, number, indent - line.indent, { what, fix: `Begin it with ${spaces(indent)}, as that one.` }),
      ...(isItem ? { silent: true } : {}),
    };
  }

  /** A line that has to be moved, with all below it that belong to it: an item is no part of the group of a key beside it. */
  function shifted(line: Line, number: number, by: number, words: { what: string; fix: string }): YamlMistake {
    const edits: TextEdit[] = [];
    const start = line.from + line.indent;
    const end = line.from + line.text.trimEnd().length;
    const span = { from: start, to: end };
    const isItem = isItemAt(line);
    for (const other of lines.slice(number)) {
      const { from, indent } = other;
      if (indent < line.indent) break;
      if (indent === line.indent && isItemAt(other) !== isItem) {
        // Items may be the value of the key above them, or go on with the list that the key was moved into.
        if (isItem || lines[lines.indexOf(other) - 1]?.text.endsWith(':')) return { span, ...words };
        break;
      }
      edits.push(by < 0 ? edit(from, from - by, '') : edit(from, from, ' '.repeat(by)));
    }
    return { span, ...words, edits };
  }
}

const isItemAt = ({ text, indent }: Line): boolean => /^-(?:[ \t]|$)/.test(text.slice(indent));

const spaces = (count: number): string => (count === 0 ? 'no space' : count === 1 ? 'one space' : `${count} spaces`);

/** Lines with something to read in them, without comments. */
function linesOf(text: string): Line[] {
  const lines: Line[] = [];
  for (const { 0: written, index } of text.matchAll(/[^\r\n]+/g)) {
    const indent = /^[ ]*/.exec(written)?.[0].length ?? 0;
    const first = written.slice(indent).trimStart();
    if (first !== '' && !first.startsWith('#')) lines.push({ from: index, text: written.trimEnd(), indent });
  }
  return lines;
}

function tabIn(lines: readonly Line[]): YamlMistake | undefined {
  const tabs = lines.flatMap(({ from, text }) => {
    const blanks = /^[ \t]*/.exec(text)?.[0] ?? '';
    return [...blanks.matchAll(/\t/g)].map(({ index }) => edit(from + index, from + index + 1, '  '));
  });
  const [first] = tabs;
  return (
    first && {
      span: first.span,
      what: 'This line is indented with a tab, which YAML does not allow.',
      fix: 'Indent with spaces, two for each step.',
      edits: tabs,
      orElse: tabs.map(({ span }) => ({ span, text: '' })),
    }
  );
}

/** Items of a list that begin with another sign than a hyphen, or with no space behind it. */
function wrongMarks(lines: readonly Line[], number: number, line: Line): YamlMistake | undefined {
  const content = line.text.slice(line.indent);
  const sign = /^(?:[*•·–—+][ \t]+(?=\S)|-(?=[\p{L}{]))/u.exec(content)?.[0];
  if (sign === undefined) return undefined;
  const edits: TextEdit[] = [];
  for (const { from, text, indent } of lines.slice(number)) {
    if (indent < line.indent) break;
    // Between two items are the other keys of the first, and items may be right.
    if (indent > line.indent || /^-(?:[ \t]|$)/.test(text.slice(indent))) continue;
    if (!text.slice(indent).startsWith(sign)) break;
    edits.push(edit(from + indent, from + indent + sign.length, '- '));
  }
  const from = line.from + line.indent;
  return {
    span: { from, to: from + content.trimEnd().length },
    what: 'An item of a list begins with a hyphen and a space.',
    fix: `${sign === '-' ? 'Write a space after the hyphen:' : 'Write'} - ${content.slice(sign.length).trimEnd()}`,
    edits,
    silent: true,
  };
}
