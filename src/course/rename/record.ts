/** The record of a former name: where `formerly` says it, and the edits that add a name there or take one back. */
import type { TextEdit } from '../../diagnostics/diagnostic.ts';
import { readYaml, type YamlRead } from '../../document/yaml.ts';
import { frontMatterEnd, readFrontMatter } from '../../lesson/front-matter.ts';
import { formerIdsIn } from '../../notation/header.ts';
import { present } from '../../values/checked.ts';
import { blockNamed, type Course } from '../course.ts';
import { COURSE_FILE, TECHNIQUES_FILE } from '../folder.ts';
import type { Renaming } from './links.ts';
import { offsetInBlock } from './mentions.ts';
import { type Named, ownName } from './name.ts';

/** The edits of one file. */
export interface RecordEdits {
  readonly file: string;
  /** Undefined where the record is written in a way that nothing can be added to. */
  readonly edits: readonly TextEdit[] | undefined;
}

const KEY = 'formerly';

/** The names a thing had before. A phrase has no address, so nobody looks for an old one. */
export function formerNamesOf({ byId, file, repertoire }: Course, named: Named): readonly string[] {
  switch (named.kind) {
    case 'lesson':
      return byId.get(named.lesson)?.frontMatter.formerly ?? [];
    case 'block': {
      const lesson = byId.get(named.lesson);
      const block = lesson && blockNamed(lesson, named.block);
      return block ? formerIdsIn(block.tree).map(({ id }) => id) : [];
    }
    case 'technique':
      return repertoire.byId.get(named.technique)?.formerly ?? [];
    case 'stage':
      return file.stages.find(({ id }) => id === named.stage)?.formerly ?? [];
    case 'phrase':
      return [];
  }
}

/** What records a rename: the old name is added, or the new one taken back where it is a former name of the same thing. */
export function formerRecord(course: Course, { from, to }: Renaming): RecordEdits | undefined {
  const [old, made] = [ownName(from), ownName(to)];
  const former = formerNamesOf(course, from);
  const back = former.includes(made);
  // On a machine that ignores case, the old address is that of the lesson itself.
  if (!back && from.kind === 'lesson' && old.toLowerCase() === made.toLowerCase()) return undefined;
  switch (from.kind) {
    case 'phrase':
      return undefined;
    case 'block':
      return inBlockHeader(course, from, back ? { remove: made } : { add: old });
    case 'lesson': {
      const { file, source } = present(course.byId.get(from.lesson), 'the lesson');
      const read = readFrontMatter(source);
      return {
        file,
        edits: inGroup({ source, read, path: '', end: frontMatterEnd(source) }, back ? { remove: made } : { add: old }),
      };
    }
    default: {
      const file = from.kind === 'stage' ? COURSE_FILE : TECHNIQUES_FILE;
      const source = course.sources.get(file) ?? '';
      const read = readYaml(source);
      const path = entryOf(source, read, from.kind === 'stage' ? 'stages' : 'techniques', old);
      const edits =
        path === undefined ? undefined : inGroup({ source, read, path }, back ? { remove: made } : { add: old });
      return { file, edits };
    }
  }
}

type Change = { readonly add: string } | { readonly remove: string };

/** The path of the entry of a list that has this id. */
function entryOf(source: string, { spans }: YamlRead, list: string, id: string): string | undefined {
  for (const [path, { value }] of spans) {
    const [, entry] = new RegExp(`^(${list}(?:/\\d+)?)/id$`).exec(path) ?? [];
    if (entry !== undefined && bare(source.slice(value.from, value.to)) === id) return entry;
  }
  return undefined;
}

const bare = (text: string): string => text.trim().replace(/^(["'])(.*)\1$/s, '$2');
const inYamlText = (name: string): string => (name === 'null' ? '"null"' : name);

interface Group {
  readonly source: string;
  readonly read: YamlRead;
  /** Of the group in the document. */
  readonly path: string;
  /** Where a line at the end of the group can be put; otherwise it is below the id. */
  readonly end?: number | undefined;
}

function inGroup(group: Group, change: Change): TextEdit[] | undefined {
  const { source, read, path } = group;
  const { spans } = read;
  const at = (step: string): string => (path === '' ? step : `${path}/${step}`);
  const written = spans.get(at(KEY));
  const whole = spans.get(path)?.value;
  const isFlow = whole !== undefined && source[whole.from] === '{';
  if ('remove' in change) return written?.key && removed(group, at(KEY), change.remove, isFlow);
  const name = inYamlText(change.add);
  if (written?.key) return added(group, at(KEY), name);
  if (isFlow && whole) {
    // Behind the id or the title, whichever there is.
    const before = spans.get(at('id'))?.value ?? spans.get(at('title'))?.value;
    return before && [insert(before.to, `, ${KEY}: ${name}`)];
  }
  if (group.end !== undefined) return [insert(group.end, `${KEY}: ${name}${breakAt(source, 0)}`)];
  const id = spans.get(at('id'));
  if (!id?.key) return undefined;
  const indent = source.slice(lineStart(source, id.key.from), id.key.from).replace(/\S/g, ' ');
  return [belowLine(source, id.value.to, `${indent}${KEY}: ${name}`)];
}

/** The items of a list, or the only one without its dash. */
function itemsOf({ read: { spans } }: Group, path: string) {
  const items = [];
  for (let index = 0; ; index++) {
    const item = spans.get(`${path}/${index}`)?.value;
    if (!item) return items;
    items.push(item);
  }
}

function added(group: Group, path: string, name: string): TextEdit[] | undefined {
  const { source, read } = group;
  const { key, value } = present(read.spans.get(path), 'the record');
  const items = itemsOf(group, path);
  const last = items.at(-1);
  const text = source.slice(value.from, value.to);
  if (last && text.startsWith('[')) return [insert(last.to, `, ${name}`)];
  if (last) {
    const dash = source.slice(lineStart(source, last.from), last.from);
    return /^[ \t]*-[ \t]+$/.test(dash) ? [belowLine(source, last.to, `${dash}${name}`)] : undefined;
  }
  if (/^\[\s*\]$/.test(text)) return [{ span: value, text: `[${name}]` }];
  // Left empty, it has the place of its key.
  if (key && value.from === key.from) return [insert(source.indexOf(':', key.to) + 1, ` ${name}`)];
  return /[\r\n]/.test(text) ? undefined : [{ span: value, text: `[${text}, ${name}]` }];
}

function removed(group: Group, path: string, name: string, isFlow: boolean): TextEdit[] | undefined {
  const { source, read } = group;
  const { key, value } = present(read.spans.get(path), 'the record');
  const items = itemsOf(group, path);
  const index = items.findIndex(({ from, to }) => bare(source.slice(from, to)) === name);
  const item = items[index];
  if (item && items.length > 1) {
    if (source[value.from] !== '[') return [remove(lineStart(source, item.from), nextLineStart(source, item.to))];
    const [before, after] = [items[index - 1], items[index + 1]];
    return [before ? remove(before.to, item.to) : remove(item.from, after?.from ?? item.to)];
  }
  if (!key) return undefined;
  if (isFlow) {
    const comma = /,\s*$/.exec(source.slice(0, key.from))?.[0].length ?? 0;
    return [remove(key.from - comma, value.to)];
  }
  const end = item && source[value.from] !== '[' ? item.to : value.to;
  const rest = source.slice(end, lineEnd(source, end));
  // What is behind it in its line is the author's.
  if (/\S/.test(rest)) return [{ span: { from: value.from, to: end }, text: '[]' }];
  return [remove(lineStart(source, key.from), nextLineStart(source, end))];
}

function inBlockHeader(
  course: Course,
  { lesson: id, block: name }: Named & { readonly kind: 'block' },
  change: Change,
): RecordEdits | undefined {
  const lesson = present(course.byId.get(id), 'the lesson');
  const { source, file } = lesson;
  const { tree, placed } = present(blockNamed(lesson, name), 'the block');
  const inFile = (offset: number): number => offsetInBlock(source, placed, offset);
  const line = tree.header.get(KEY);
  if ('remove' in change) {
    const former = formerIdsIn(tree);
    const index = former.findIndex((one) => one.id === change.remove);
    const [own, before, after] = [former[index], former[index - 1], former[index + 1]];
    if (!line || !own) return undefined;
    if (before) return { file, edits: [remove(inFile(before.span.to), inFile(own.span.to))] };
    if (after) return { file, edits: [remove(inFile(own.span.from), inFile(after.span.from))] };
    const at = inFile(line.keySpan.from);
    return { file, edits: [remove(lineStart(source, at), nextLineStart(source, at))] };
  }
  if (line) return { file, edits: [insert(inFile(line.valueSpan.to), `, ${change.add}`)] };
  const head = present(tree.header.get('id'), 'the id');
  const at = inFile(head.keySpan.from);
  return { file, edits: [belowLine(source, at, `${source.slice(lineStart(source, at), at)}${KEY}: ${change.add}`)] };
}

// Lines

const insert = (at: number, text: string): TextEdit => ({ span: { from: at, to: at }, text });
const remove = (from: number, to: number): TextEdit => ({ span: { from, to }, text: '' });

const lineStart = (source: string, at: number): number =>
  Math.max(source.lastIndexOf('\n', at - 1), source.lastIndexOf('\r', at - 1)) + 1;
const lineEnd = (source: string, at: number): number => {
  const found = source.slice(at).search(/[\r\n]/);
  return found < 0 ? source.length : at + found;
};
const nextLineStart = (source: string, at: number): number => {
  const end = lineEnd(source, at);
  return end + (source.startsWith('\r\n', end) ? 2 : end < source.length ? 1 : 0);
};

/** What ends the lines of a file around a place. */
function breakAt(source: string, at: number): string {
  const start = lineStart(source, at);
  return (
    /^\r\n|^[\r\n]/.exec(source.slice(lineEnd(source, at)))?.[0] ??
    /\r\n$|[\r\n]$/.exec(source.slice(0, start))?.[0] ??
    '\n'
  );
}

/** A line of its own below the one that has `at` in it. */
function belowLine(source: string, at: number, line: string): TextEdit {
  const next = nextLineStart(source, at);
  return lineEnd(source, at) === source.length
    ? insert(source.length, `${breakAt(source, at)}${line}`)
    : insert(next, `${line}${breakAt(source, at)}`);
}
