/** A block's text, read line by line into a tree. Linear in the text's length; never throws. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { certainly, perhaps } from '../diagnostics/edit.ts';
import { throughEndings } from '../score/endings.ts';
import { MOST_VERSES } from '../score/verses.ts';
import { append } from '../values/append.ts';
import { isOneOf, itemAt } from '../values/checked.ts';
import { nameOfText, plainCharacters } from './characters.ts';
import { chordsBelow, isChordLine } from './mistakes/chord-lines.ts';
import { withWordsTogether } from './mistakes/lines-of-words.ts';
import { withSpellingsTogether } from './mistakes/other-spellings.ts';
import {
  LINE_KEYS,
  lettersOf,
  meantPhraseName,
  meantSetting,
  nearestSetting,
  secondSetting,
  spoiledSetting,
} from './mistakes/setting-lines.ts';
import { type SpacedPhrases, withSpacedNames } from './mistakes/spaced-names.ts';
import { report } from './problems.ts';
import { scanMusic } from './scan.ts';
import { CHANGE_KEYS, type ChangeKey, readSetting, SETTING_KEYS } from './setting-values.ts';
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
  /** What belongs to something else is left out, once that is known. */
  to: number;
  /** Where its break begins; its comment is before it. */
  readonly end: number;
}

/** What may be before the colon of a line. */
const ALL_KEYS: readonly string[] = [...HEADER_KEYS, ...LINE_KEYS];

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
  /** Phrases whose names have spaces, by these names. */
  const spacedPhrases: SpacedPhrases = new Map();
  const lines = [...linesOfBlock(plain)];
  for (const [index, line] of lines.entries()) {
    const content = plain.slice(line.from, line.to);
    if (content.trim() === '') continue;
    const keyed = asPhrase(keyOfLine(content, line.from) ?? unmarked(content, line) ?? spoiled(content, line));
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
      const wasInHeader: boolean = inHeader;
      inHeader = false;
      if (readChordLine(content, index)) continue;
      readOtherComment(content, line);
      const scanned = scanMusic(plain, line.from, line.to, diagnostics);
      // What begins like no music may be a setting, and then those behind it are not late.
      inHeader = wasInHeader && scanned[0]?.kind === 'unreadable';
      for (const item of scanned) if (item.kind === 'bar') changes = through(changes, item.endings);
      append(music, scanned);
      music.push({ kind: 'line-end', span: { from: line.to, to: line.to } });
    }
  }
  const named = withSpacedNames(plain, spacedPhrases, diagnostics);
  const together = withSpellingsTogether(plain, withWordsTogether(plain, named));
  return { text, header, music, phrases, diagnostics: together };

  /** A line of chord symbols alone above a line of music; false for anything else. */
  function readChordLine(content: string, index: number): boolean {
    if (!isChordLine(content)) return false;
    const [line, next] = [itemAt(lines, index), lines[index + 1]];
    const below = next && plain.slice(next.from, next.to);
    const isMusic = next && below && below.trim() !== '' && !keyOfLine(below, 0) && !isChordLine(below);
    const found = isMusic ? chordsBelow(plain, line, next) : undefined;
    const start = line.from + content.length - content.trimStart().length;
    const span = { from: start, to: line.from + content.trimEnd().length };
    diagnostics.push(report('chords-above', span, { line: found?.line }, found?.fix));
    return true;
  }

  /** A comment behind `//`, as elsewhere: what it says is no music. */
  function readOtherComment(content: string, line: BlockLine): void {
    const found = /(?:^| )(\/\/+)(?= |\p{L})/u.exec(content);
    if (!found) return;
    const from = line.from + found.index + found[0].length - (found[1]?.length ?? 0);
    const to = line.from + found.index + found[0].length;
    const mark = text[to] === ' ' ? '#' : '# ';
    diagnostics.push(report('comment-unmarked', { from, to }, {}, certainly({ from, to }, mark)));
    line.to = from;
  }

  /** A setting without its colon, reported and read as it is meant. */
  function unmarked(content: string, line: BlockLine): Keyed | undefined {
    const meant = meantSetting(content, ALL_KEYS);
    if (!meant) return undefined;
    const { key, head, isCertain } = meant;
    const [from, to, until] = [line.from + meant.from, line.from + meant.to, line.from + meant.valueTo];
    const edits = [
      { span: { from, to }, text: head },
      { span: { from: until, to: line.to }, text: '' },
    ].filter(({ span, text: written }) => span.to > span.from || written !== '');
    const written = { from, to: line.from + content.trimEnd().length };
    const facts = {
      written: nameOfText(text.slice(written.from, written.to)),
      meant: nameOfText(head + text.slice(to, until)),
    };
    diagnostics.push(report('setting-unmarked', written, facts, { edits, certain: isCertain }));
    line.to = until;
    return { key, keySpan: { from, to }, behind: to, isGuess: true };
  }

  /** A setting with a sign too many in its name, which is an unknown name. */
  function spoiled(content: string, line: BlockLine): Keyed | undefined {
    const found = spoiledSetting(content, ALL_KEYS);
    if (!found) return undefined;
    const [from, to] = [line.from + found.from, line.from + found.to];
    return { key: text.slice(from, to), keySpan: { from, to }, behind: line.from + found.valueFrom };
  }

  /** A phrase whose word is mistyped is reported here and read as one, so that what quotes it finds it. */
  function asPhrase(keyed: Keyed | undefined): Keyed | undefined {
    const meant = keyed && meantPhraseName(keyed.key, ALL_KEYS);
    if (!keyed || meant === undefined) return keyed;
    const facts = { key: nameOfText(keyed.key), nearest: `${meant}:`, known: ALL_KEYS, isPart: false };
    diagnostics.push(report('header-unknown', keyed.keySpan, facts, perhaps(keyed.keySpan, meant)));
    return { ...keyed, key: meant, isGuess: true };
  }

  /** A name that is no setting. It is read as the one that is meant where only capital letters are wrong. */
  function readUnknown({ key, keySpan, behind }: Keyed, line: BlockLine): void {
    const { value, valueSpan } = trimmed(text, behind, line.to);
    const near = value === '' ? 'part' : nearestSetting(lettersOf(key), ALL_KEYS);
    const isCase = near === key.toLowerCase();
    const meant = SETTING_KEYS.find((one) => one === near);
    const isTaken = near !== undefined && inHeader && header.has(near);
    const isRead = meant !== undefined && value !== '' && 'value' in readSetting(meant, value);
    const facts = {
      key: nameOfText(key),
      nearest: value === '' ? undefined : near && `${near}:`,
      known: ALL_KEYS,
      isPart: value === '',
    };
    const certain = (isCase || isRead) && !isTaken;
    const fix = near === undefined || value === '' ? undefined : (certain ? certainly : perhaps)(keySpan, near);
    diagnostics.push(report('header-unknown', keySpan, facts, fix));
    if (near !== undefined && inHeader && !isTaken && isOneOf(HEADER_KEYS, near))
      header.set(near, { key: near, keySpan, value, valueSpan, isGuess: true });
  }

  /** A setting that is on the line of another one is read as if it had its own, and the line ends before it. Where the value of the first begins. */
  function readSecond({ key, behind }: Keyed, line: BlockLine): number {
    const second = secondSetting(text.slice(behind, line.to), ALL_KEYS);
    if (!second) return behind;
    const [from, valueFrom] = [behind + second.keyAt, behind + second.valueAt];
    const keySpan = { from, to: from + second.key.length };
    const isAgain = second.key === key;
    const isAtOnce = text.slice(behind, from).trim() === '';
    if (isAgain) {
      const fix = isAtOnce ? certainly({ from, to: valueFrom }, '') : undefined;
      diagnostics.push(report('header-twice', keySpan, { key }, fix));
      if (isAtOnce) return valueFrom;
    } else {
      diagnostics.push(report('settings-together', keySpan, { key: second.key, first: key }));
      if (!header.has(second.key))
        header.set(second.key, { key: second.key, keySpan, ...trimmed(text, valueFrom, line.to), isGuess: true });
    }
    line.to = behind + second.at;
    return behind;
  }

  function readHeader(keyed: Keyed, line: BlockLine): void {
    const { key, keySpan } = keyed;
    const known = isOneOf(HEADER_KEYS, key);
    const behind = known && key !== 'title' ? readSecond(keyed, line) : keyed.behind;
    if (!known) readUnknown(keyed, line);
    else if (!inHeader && isOneOf(CHANGE_KEYS, key)) readChange(key, keySpan, trimmed(text, behind, line.to));
    else if (!inHeader) diagnostics.push(report('header-late', keySpan, { key }));
    else if (header.has(key)) diagnostics.push(report('header-twice', keySpan, { key }));
    else
      header.set(key, { key, keySpan, ...trimmed(text, behind, line.to), ...(keyed.isGuess ? { isGuess: true } : {}) });
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
    const written = key.slice('phrase'.length).trim();
    const name = written.replace(/ +/g, '-');
    if (name === '') {
      diagnostics.push(report('phrase-without-name', keySpan, {}));
      return;
    }
    if (name !== written) spacedPhrases.set(written, { keySpan, name });
    const nameSpan = { from: keySpan.to - written.length, to: keySpan.to };
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
  /** It was written otherwise, which has been reported. */
  readonly isGuess?: true;
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
