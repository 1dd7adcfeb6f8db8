/** One line of music, read into items. Every token is read where it is, and a bad one never hides the next. */
import type { Diagnostic, TextSpan } from '../diagnostics/diagnostic.ts';
import { nearest } from '../diagnostics/nearest.ts';
import { isUnknownSymbol, isUnknownTarget } from '../harmony/symbol-help.ts';
import type { Breath } from '../instrument/harp.ts';
import { QUARTER } from '../instrument/quarter-step.ts';
import type { SmallNote } from '../score/mark.ts';
import type { Mouth } from '../score/score.ts';
import { readBarLine, wordProblems } from './bar-line.ts';
import { BEND_SIGNS, nameOfText, pairedBraces } from './characters.ts';
import { MOST_REST_BARS } from './jumps/again-problems.ts';
import { countWords } from './jumps/count-words.ts';
import { jumpWords } from './jumps/jump-words.ts';
import { readMarks } from './mark-words.ts';
import { type BracketEnd, endOfChord, endOfHoles, endOfMarks, isBendQuote } from './mistakes/brackets.ts';
import { breathsOf, type Holes, type Sign } from './mistakes/breaths.ts';
import { notASlot } from './mistakes/other-spellings.ts';
import { unquotedChord } from './mistakes/spelling-words.ts';
import { report } from './problems.ts';
import { readQuotation } from './quotation/quotation.ts';
import { MOUTH_WORDS } from './suggestions.ts';
import type { Item, NoteItem, TreeNote, WrittenMark } from './tree.ts';

/** A group of more shares than this is too fine to be read. */
export const MOST_SHARES = 16;

/**
 * Scans `text` from `from` up to `to`. Its characters are already plain (see `characters.ts`), and offsets are those
 * of the block.
 */
export function scanMusic(text: string, from: number, to: number, diagnostics: Diagnostic[]): Item[] {
  return new Scanner(text.slice(0, to), diagnostics).items(from, false);
}

/** A cursor over one line: the only mutable thing in reading, gone when the line is read. */
class Scanner {
  private at = 0;
  private readonly text: string;
  private readonly end: number;
  private readonly diagnostics: Diagnostic[];
  /** Closing characters known not to come any more, so that a line of opening ones stays linear. */
  private readonly missing = new Set<string>();
  /** Where each brace of this line is closed, once one has been met. */
  private braces: ReadonlyMap<number, number> | undefined;

  constructor(text: string, diagnostics: Diagnostic[]) {
    this.text = text;
    this.end = text.length;
    this.diagnostics = diagnostics;
  }

  items(from: number, inGroup: boolean): Item[] {
    const items: Item[] = [];
    this.at = from;
    while (this.at < this.end) {
      const character = this.text.charAt(this.at);
      if (character === ' ') this.at++;
      else items.push(this.item(character, inGroup));
    }
    return items;
  }

  /**
   * ```markdown
   * > | -3'[dip]> {4 -4}2 =3 "IV7" :|
   *     ^         ^       ^  ^     ^
   * ```
   */
  private item(character: string, inGroup: boolean): Item {
    switch (character) {
      case '"':
        return this.chord();
      case '=':
        return this.counted('hold', '=');
      case '.':
        return this.restBars(inGroup) ?? this.counted('rest', '.');
      case '{':
        return this.group(inGroup);
      case '<':
        return this.quote(inGroup);
      case '@':
        return this.mouth();
      case '>':
        this.at++;
        return { kind: 'glide', span: this.since(this.at - 1) };
      case '%':
        this.at++;
        return inGroup
          ? this.crossed('repeat of a bar', this.since(this.at - 1))
          : { kind: 'again', span: this.since(this.at - 1) };
      case '|':
      case ':':
        return this.barLine(inGroup);
      default:
        return /[-+(\d]/.test(character) ? this.note() : this.unreadable(this.at);
    }
  }

  /** What cannot be inside a group. */
  private crossed(what: string, span: TextSpan): Item {
    this.diagnostics.push(report('group-crossed', span, { what }));
    return { kind: 'unreadable', span };
  }

  private since(from: number): TextSpan {
    return { from, to: this.at };
  }

  private match(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (!found) return undefined;
    this.at += found[0].length;
    return found;
  }

  /** Skips a run of characters that mean nothing, and reports it once. */
  private unreadable(from: number, rest = /[^\s|"{}<>@]*/y): Item {
    const spelled = jumpWords(this.text, from) ?? countWords(this.text, from);
    if (spelled) {
      this.at = spelled.to;
      this.diagnostics.push(...wordProblems(this.text, [this.since(from)]));
      return { kind: 'unreadable', span: this.since(from) };
    }
    this.at = Math.max(this.at, from + 1);
    this.match(rest);
    if (this.text[this.at] === '"' && unquotedChord(this.text.slice(from, this.at))) this.at++;
    const span = this.since(from);
    this.diagnostics.push(notASlot(this.text.slice(span.from, span.to), span));
    return { kind: 'unreadable', span };
  }

  /** The offset of the closing character on this line, or undefined after saying that it is missing. */
  private closing(bracket: string, closing: string, from: number): number | undefined {
    const close = this.missing.has(closing) ? -1 : this.text.indexOf(closing, from + 1);
    if (close !== -1) return close;
    this.missing.add(closing);
    this.unclosed(bracket, closing, from);
    return undefined;
  }

  private unclosed(bracket: string, closing: string, from: number, { fix, meant }: Partial<BracketEnd> = {}): void {
    const facts = { bracket, closing, ...(meant === undefined ? {} : { meant }) };
    this.diagnostics.push(report('bracket-unclosed', { from, to: from + 1 }, facts, fix));
  }

  /** Past the rest of a word that has already been reported. */
  private passed(from: number): Item {
    this.match(/[^\s|]*/y);
    return { kind: 'unreadable', span: this.since(from) };
  }

  private chord(): Item {
    const from = this.at;
    const ending = endOfChord(this.text, from);
    const { to, isClosed } = ending;
    if (!isClosed) this.unclosed('quotation mark', '"', from, ending);
    if (to === from) return this.passed(from);
    this.at = isClosed ? to + 1 : to;
    const text = this.text.slice(from + 1, to).trim();
    const span = this.since(from);
    if (isUnknownSymbol(text)) this.diagnostics.push(report('chord-unknown', span, { text: nameOfText(text) }));
    return { kind: 'chord', text, span };
  }

  private counted(kind: 'hold' | 'rest', sign: string): Item {
    const from = this.at++;
    const slots = this.count(sign, from) ?? 1;
    return { kind, slots, span: this.since(from) };
  }

  /** `.x4`: a rest of several bars. */
  private restBars(inGroup: boolean): Item | undefined {
    const bars = Number(this.match(/\.x(\d{1,3})(?![^\s|"])/y)?.[1]);
    if (Number.isNaN(bars))
      return !inGroup && countWords(this.text, this.at)?.rest ? this.unreadable(this.at) : undefined;
    const span = this.since(this.at - `.x${bars}`.length);
    if (inGroup) return this.crossed('rest of several bars', span);
    if (bars >= 2 && bars <= MOST_REST_BARS) return { kind: 'rest-bars', bars, span };
    this.diagnostics.push(report('rest-bars', span, { why: 'count' }));
    return { kind: 'unreadable', span };
  }

  /** The count behind a sign, 1 to 999, or undefined for none. */
  private count(sign: string, from: number): number | undefined {
    if (!isDigit(this.text[this.at])) return undefined;
    const count = Number(this.match(/\d+/y)?.[0]);
    if (count >= 1 && count <= 999) return count;
    this.diagnostics.push(report('count-zero', this.since(from), { sign }));
    return 1;
  }

  private group(inGroup: boolean): Item {
    const from = this.at;
    const close = this.groupEnd(from);
    if (close === undefined) {
      this.at++;
      return { kind: 'unreadable', span: this.since(from) };
    }
    if (inGroup) {
      this.at = close + 1;
      this.match(/\d+/y);
      this.diagnostics.push(report('group-nested', this.since(from), {}));
      return { kind: 'unreadable', span: this.since(from) };
    }
    const items = new Scanner(this.text.slice(0, close), this.diagnostics).items(from + 1, true);
    this.at = close + 1;
    const slots = this.count('}', close) ?? 1;
    const span = this.since(from);
    const shares = items.reduce((sum, item) => sum + ('slots' in item ? item.slots : takesSlot(item) ? 1 : 0), 0);
    if (shares === 0) this.diagnostics.push(report('group-empty', span, {}));
    if (shares > MOST_SHARES) this.diagnostics.push(report('group-too-many', span, { limit: MOST_SHARES }));
    return shares === 0 || shares > MOST_SHARES ? { kind: 'unreadable', span } : { kind: 'group', items, slots, span };
  }

  /** The brace that closes this group, past any group wrongly inside it. */
  private groupEnd(from: number): number | undefined {
    if (this.closing('brace', '}', from) === undefined) return undefined;
    this.braces ??= pairedBraces(this.text, from);
    return this.braces.get(from) ?? this.text.indexOf('}', from);
  }

  private quote(inGroup: boolean): Item {
    const from = this.at;
    const close = this.closing('angle bracket', '>', from);
    if (close === undefined) return this.passed(from);
    this.at = close + 1;
    const span = this.since(from);
    if (inGroup) return this.crossed('quotation', span);
    const text = this.text.slice(from + 1, close);
    const quotation = readQuotation(text, from + 1);
    const { marks, mouth } = this.marks();
    if (!quotation) {
      this.diagnostics.push(report('quote-unreadable', span, { text: nameOfText(text.trim()) }));
      return { kind: 'unreadable', span };
    }
    const { to } = quotation;
    const facts = to && isUnknownTarget(to.chord) ? { text: nameOfText(to.chord) } : undefined;
    if (to && facts) this.diagnostics.push(report('chord-unknown', to.span, facts));
    return { kind: 'quote', ...quotation, marks, ...(mouth === undefined ? {} : { mouth }), span };
  }

  private mouth(): Item {
    const from = this.at++;
    const word = this.match(/[^\s|"{}<>@]*/y)?.[0] ?? '';
    const span = this.since(from);
    if (word === 'lips' || word === 'tongue') return { kind: 'mouth', mouth: word, span };
    const near = nearest(word, MOUTH_WORDS);
    this.diagnostics.push(report('mouth-unknown', span, { text: nameOfText(word), nearest: near && `@${near}` }));
    return { kind: 'mouth', mouth: near === 'tongue' ? 'tongue' : 'lips', span };
  }

  private barLine(inGroup: boolean): Item {
    const from = this.at;
    const read = readBarLine(this.text, from);
    if (!read) return this.unreadable(from);
    this.at = read.to;
    const span = this.since(from);
    if (inGroup) return this.crossed('bar line', span);
    this.diagnostics.push(...wordProblems(this.text, read.unknown));
    return { kind: 'bar', ...read.line, span };
  }

  private note(): Item {
    const from = this.at;
    const sign = this.sign();
    const several = this.text[this.at] === '(';
    const holes = several ? this.chordNotes(sign, from) : this.singleNote(sign, from);
    if (!holes) return several ? this.passed(from) : this.unreadable(from);
    const { notes } = holes;
    const breath: Breath = holes.breath === '-' ? 'draw' : 'blow';
    const end = this.at;
    const [only] = notes;
    const { marks, mouth } = this.marks();
    // What hangs on to a note without a space is part of the mistake: `4x` is one unreadable thing, not two.
    if (this.at < this.end && !/[\s|:=.>}"{<@]/.test(this.text.charAt(this.at))) return this.unreadable(from);
    const span = only?.span.from === from && only.span.to === end ? only.span : { from, to: end };
    return { kind: 'note', breath, notes, marks, ...(mouth === undefined ? {} : { mouth }), span } satisfies NoteItem;
  }

  /** A hole with its sign, which is at `from`. */
  private singleNote(breath: Sign, from: number): Holes | undefined {
    const note = this.hole(from);
    return note && { notes: [note], breath };
  }

  /** `3''`, `3'q`, `6o`, `4*`: one hole and what is done to it. Its place begins at `from`, where its sign is if it has one. */
  private hole(from = this.at): TreeNote | undefined {
    const start = this.at;
    let hole = 0;
    for (; this.at < start + MOST_DIGITS && isDigit(this.text[this.at]); this.at++)
      hole = 10 * hole + Number(this.text[this.at]);
    if (this.at === start) return undefined;
    let bend = 0;
    let quarter = false;
    let over = false;
    let slide = false;
    let hasQuote = false;
    for (; ; this.at++) {
      const sign = this.text[this.at] ?? '';
      const half = BEND_SIGNS[sign];
      if (half !== undefined) bend += half;
      else if (sign === '"' && isBendQuote(this.text, this.at)) {
        bend += 2;
        hasQuote = true;
      } else if (sign === 'q') quarter = true;
      else if (sign === 'o') over = true;
      else if (sign === '*') slide = true;
      else break;
    }
    if (quarter) bend += QUARTER;
    const span = this.since(from);
    if (hasQuote) this.diagnostics.push(notASlot(this.text.slice(span.from, span.to), span));
    if (over && bend > 0) this.diagnostics.push(report('bend-and-overbend', span, {}));
    return { hole, bend: over ? 0 : bend, over, slide, span };
  }

  /** The sign before a note, if there is one. */
  private sign(): Sign {
    const sign = this.text[this.at];
    if (sign !== '-' && sign !== '+') return undefined;
    this.at++;
    return sign;
  }

  /** `(1 4)`: holes on one breath. The sign before the parenthesis is `sign`, at `from` where there is one. */
  private chordNotes(sign: Sign, from: number): Holes | undefined {
    const open = this.at;
    const close = endOfHoles(this.text, open);
    if (close === undefined) {
      this.unclosed('parenthesis', ')', open);
      return undefined;
    }
    const notes: TreeNote[] = [];
    const signs: Sign[] = [];
    this.at = open + 1;
    const met = this.diagnostics.length;
    while (this.at < close) {
      if (this.match(/[\s,]/y)) continue;
      const inner = this.sign();
      const note = this.hole();
      if (!note) {
        this.unreadable(this.at, /[^\s|"{}<>@)]*/y);
        continue;
      }
      signs.push(inner);
      notes.push(note);
    }
    this.at = close + 1;
    const span = this.since(from);
    if (this.diagnostics.length > met) return undefined;
    if (notes.length === 0) {
      this.diagnostics.push(notASlot(this.text.slice(span.from, span.to), span));
      return undefined;
    }
    if (!signs.some(Boolean)) return { notes, breath: sign };
    const holes = notes.map((note) => this.text.slice(note.span.from, note.span.to));
    const { facts, breath, fix } = breathsOf(sign, signs, holes, span);
    this.diagnostics.push(report('two-breaths', span, facts, fix));
    return facts.isMixed ? undefined : { notes, breath };
  }

  /** `[slap accent]`, `[shake 5]`, `[lips]`, one or more brackets behind a note. */
  private marks(): { marks: NoteItem['marks']; mouth: Mouth | undefined } {
    if (this.text[this.at] !== '[') return UNMARKED;
    const marks: WrittenMark[] = [];
    let mouth: Mouth | undefined;
    while (this.text[this.at] === '[') {
      const ending = endOfMarks(this.text, this.at);
      const { to: close, isClosed } = ending;
      if (!isClosed) this.unclosed('bracket', ']', this.at, ending);
      const words = [...this.text.slice(this.at + 1, close).matchAll(/[^\s,]+/g)];
      const start = this.at + 1;
      const placed = words.map(({ 0: text, index }) => ({
        text,
        span: { from: start + index, to: start + index + text.length },
      }));
      mouth = readMarks(placed, marks, (word) => this.smallNote(word), this.diagnostics) ?? mouth;
      this.at = isClosed ? close + 1 : close;
    }
    return { marks, mouth };
  }

  /** The note that a mark names: a word in a bracket, and all of it. */
  private smallNote({ from, to }: TextSpan): SmallNote | undefined {
    this.at = from;
    const sign = this.sign();
    const note = this.hole();
    if (!note || this.at !== to) return undefined;
    const { hole, bend, over, slide } = note;
    return { breath: sign === '-' ? 'draw' : 'blow', hole, bend, over, slide };
  }
}

const UNMARKED: { readonly marks: NoteItem['marks']; readonly mouth: undefined } = { marks: [], mouth: undefined };
const MOST_DIGITS = 4; // More is no hole, however it is mistyped.
const isDigit = (character: string | undefined): boolean =>
  character !== undefined && character >= '0' && character <= '9';

const takesSlot = (item: Item): boolean => item.kind === 'note' || item.kind === 'unreadable';
