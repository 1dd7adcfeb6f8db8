/** A block's text, read line by line into a tree. Linear in the text's length; never throws. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { throughEndings } from '../score/endings.ts';
import { MOST_VERSES } from '../score/verses.ts';
import { append } from '../values/append.ts';
import { isOneOf } from '../values/checked.ts';
import { nameOfText, plainCharacters } from './characters.ts';
import { report } from './problems.ts';
import { scanMusic } from './scan.ts';
import { CHANGE_KEYS, type ChangeKey } from './setting-values.ts';
import type { BlockTree, ChangeItem, HeaderLine, Item, Phrase, Syllable } from './tree.ts';

/** A block is one exercise or tune; a hundred bars of thirty-seconds fit many times. In UTF-16 units. */
export const LONGEST_BLOCK = 64 * 1024;

/** The settings a block may have. */
export const HEADER_KEYS = [
  'id', 'formerly', 'title', 'harp', 'tuning', 'position', 'key', 'meter', 'tempo', 'feel', 'slot', 'form', 'chords', 'pickup', 'mouth',
] as const; // biome-ignore format: a list to read across

/** A line of a block. */
export interface BlockLine {
  /** Offsets of the line's text, without its break and its comment. */
  readonly from: number;
  readonly to: number;
  /** Where its break begins; its comment is before it. */
  readonly end: number;
}

/** Parses the text of a block. Never throws: what cannot be read is in the tree's diagnostics. */
export function parseBlock(text: string): BlockTree {
  const diagnostics: Diagnostic[] = [];
  const header = new Map<string, HeaderLine>();
  const phrases = new Map<string, Phrase>();
  const music: Item[] = [];
  let changes: readonly ChangeItem[] = [];
  const through = throughEndings(changes);
  if (text.length > LONGEST_BLOCK) {
    const limit = `${LONGEST_BLOCK / 1024} thousand characters`;
    diagnostics.push(report('block-too-long', { from: 0, to: firstLineEnd(text) }, { limit }));
    return { text, header, music, phrases, diagnostics };
  }
  const plain = plainCharacters(text);
  let inHeader = true;
  for (const line of linesOfBlock(plain)) {
    const content = plain.slice(line.from, line.to);
    if (content.trim() === '') continue;
    const keyed = keyOfLine(content, line.from);
    if (keyed && /^(?:part|text|syllables)$|^(?:phrase|words)\b/.test(keyed.key)) {
      inHeader = false;
      if (keyed.key === 'part') readPart(keyed, line);
      else if (keyed.key === 'text') readDirection(keyed, line);
      else if (keyed.key === 'syllables')
        music.push({ kind: 'syllables', ...readSyllables(plain, keyed.behind, line.to) });
      else if (keyed.key.startsWith('words')) readVerse(keyed, line);
      else readPhrase(keyed, line);
    } else if (keyed) {
      readHeader(keyed, line);
    } else {
      inHeader = false;
      const scanned = scanMusic(plain, line.from, line.to, diagnostics);
      for (const item of scanned) if (item.kind === 'bar') changes = through(changes, item.endings);
      append(music, scanned);
      music.push({ kind: 'line-end', span: { from: line.to, to: line.to } });
    }
  }
  return { text, header, music, phrases, diagnostics };

  function readHeader({ key, keySpan, behind }: Keyed, line: BlockLine): void {
    const known = isOneOf(HEADER_KEYS, key);
    if (!known) {
      const keys = [...HEADER_KEYS, 'part', 'text', 'words', 'syllables', 'phrase'];
      const near = /^(?:verse|lyrics)\b/.test(key) ? key.replace(/^\w+/, 'words') : nearest(key, keys);
      const facts = { key: nameOfText(key), nearest: near && `${near}:`, known: keys };
      diagnostics.push(report('header-unknown', keySpan, facts));
    } else if (!inHeader && isOneOf(CHANGE_KEYS, key)) readChange(key, keySpan, trimmed(text, behind, line.to));
    else if (!inHeader) diagnostics.push(report('header-late', keySpan, { key }));
    else if (header.has(key)) diagnostics.push(report('header-twice', keySpan, { key }));
    else header.set(key, { key, keySpan, ...trimmed(text, behind, line.to) });
  }

  function readChange(key: ChangeKey, keySpan: TextSpan, { value, valueSpan }: ReturnType<typeof trimmed>): void {
    const item: ChangeItem = { kind: 'change', key, value, keySpan, span: valueSpan };
    music.push(item);
    changes = [...changes.filter((one) => one.key !== key), item];
  }

  function readPart({ keySpan, behind }: Keyed, line: BlockLine): void {
    const { value: name, valueSpan: span } = trimmed(text, behind, line.to);
    if (name === '') diagnostics.push(report('part-without-name', keySpan, {}));
    else music.push({ kind: 'part', name, span });
  }

  function readDirection({ keySpan, behind }: Keyed, line: BlockLine): void {
    const { value, valueSpan: span } = trimmed(text, behind, line.to);
    if (value === '') diagnostics.push(report('text-empty', keySpan, {}));
    else music.push({ kind: 'direction', text: value, span });
  }

  function readVerse({ key, keySpan, behind }: Keyed, line: BlockLine): void {
    const written = key.slice('words'.length).trim();
    const verse = /^[1-9]$/.test(written) ? { verse: Number(written) } : {};
    if (written !== '' && verse.verse === undefined)
      diagnostics.push(report('verse-number', keySpan, { written: nameOfText(written), most: MOST_VERSES }));
    else music.push({ kind: 'words', ...verse, ...readSyllables(plain, behind, line.to) });
  }

  function readPhrase({ key, keySpan, behind }: Keyed, line: BlockLine): void {
    const name = key.slice('phrase'.length).trim();
    if (!/^[\w-]+$/.test(name)) {
      diagnostics.push(report('phrase-without-name', keySpan, {}));
      return;
    }
    const nameSpan = { from: keySpan.to - name.length, to: keySpan.to };
    const items = scanMusic(plain, behind, line.to, diagnostics);
    for (const item of items) {
      if (item.kind === 'bar' && (item.repeatEnd || item.repeatStart || item.endings || item.close || item.signs))
        diagnostics.push(report('phrase-repeats', item.span, {}));
      if (item.kind === 'again') diagnostics.push(report('again-unclear', item.span, { why: 'phrase' }));
    }
    if (items.length === 0) diagnostics.push(report('phrase-empty', nameSpan, { name }));
    if (phrases.has(name)) diagnostics.push(report('phrase-twice', nameSpan, { name: nameOfText(name) }));
    else phrases.set(name, { name, nameSpan, items, changes });
  }
}

/** A line that begins with a key. */
export interface Keyed {
  readonly key: string;
  readonly keySpan: TextSpan;
  /** The offset behind the colon. */
  readonly behind: number;
}

/** `key:` at the head of a line, which no music begins with. */
export function keyOfLine(content: string, lineFrom: number): Keyed | undefined {
  const colon = content.indexOf(':');
  const head = content.slice(0, Math.max(0, colon));
  const key = head.trim();
  if (!/^[A-Za-z][\w -]*$/.test(key)) return undefined;
  const from = lineFrom + head.length - head.trimStart().length;
  return { key, keySpan: { from, to: from + key.length }, behind: lineFrom + colon + 1 };
}

const firstLineEnd = (text: string): number => {
  const end = text.search(/[\r\n]/);
  return Math.min(end === -1 ? text.length : end, 80);
};

/** The lines of a text with plain characters, each without its line break and without a comment. */
export function* linesOfBlock(text: string): Generator<BlockLine> {
  const breaks = /\r\n|\r|\n/g;
  let from = 0;
  for (;;) {
    const found = breaks.exec(text);
    const end = found ? found.index : text.length;
    yield { from, to: commentStart(text, from, end), end };
    if (!found) return;
    from = end + found[0].length;
  }
}

/** Where the comment of a line begins, outside of quotation marks; the line's end where it has none. */
function commentStart(text: string, from: number, end: number): number {
  if (OF_WORDS.test(text.slice(from, Math.min(end, from + 40)))) return end;
  let quoted = false;
  for (let i = from; i < end; i++) {
    if (text[i] === '"') quoted = !quoted;
    else if (!quoted && isComment(text, i, from)) return i;
  }
  // An unclosed quotation mark must not swallow the comment behind it.
  return quoted ? unquotedComment(text, from, end) : end;
}

function unquotedComment(text: string, from: number, end: number): number {
  const last = text.lastIndexOf('"', end - 1);
  for (let i = Math.max(from, last + 1); i < end; i++) if (isComment(text, i, from)) return i;
  return end;
}

/** A `#` at the start of a line, or between spaces with something behind it: `#IVdim7` is a chord, and `F #` a mistake. */
const isComment = (text: string, at: number, from: number): boolean =>
  text[at] === '#' && (at === from || (text[at - 1] === ' ' && text[at + 1] === ' '));

/** Lines of words, in which a `#` is text: `part: Verse # 2`. */
const OF_WORDS = /^[ ]*(?:title|part|text|words(?:[ ]+\d+)?|syllables)[ ]*:/i;

function trimmed(text: string, from: number, to: number): { value: string; valueSpan: TextSpan } {
  const raw = text.slice(from, to);
  const value = raw.trim();
  const start = from + raw.length - raw.trimStart().length;
  return { value, valueSpan: { from: start, to: start + value.length } };
}

/** `A-ma-zing grace_ *`: syllables, words divided by hyphens. */
export function readSyllables(text: string, from: number, to: number): { syllables: Syllable[]; span: TextSpan } {
  const syllables: Syllable[] = [];
  for (const word of text.slice(from, to).matchAll(/\S+/g)) {
    let at = from + word.index;
    const pieces = word[0].split('-');
    pieces.forEach((piece, index) => {
      const span = { from: at, to: at + piece.length };
      at = span.to + 1;
      const hyphen = index < pieces.length - 1;
      if (piece === '_') syllables.push({ kind: 'extend', span });
      else if (piece === '*') syllables.push({ kind: 'skip', span });
      else if (piece !== '') syllables.push({ kind: 'text', text: piece, hyphen, span });
    });
  }
  return { syllables, span: { from, to } };
}
