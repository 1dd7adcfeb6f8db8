/** What is wrong with a value in braces that is none: the sign or the word itself, and what its author must have meant. */
import type { TextEdit, TextSpan } from '../diagnostics/diagnostic.ts';
import { excerpt } from '../diagnostics/excerpt.ts';

/** A mistake in the writing of a tag or of a value in it. */
export interface WritingMistake {
  readonly span: TextSpan;
  readonly what: string;
  readonly fix: string;
  /** What makes all of it right; missing where that is not known. */
  readonly edits?: readonly TextEdit[];
}

interface Frame {
  /** Where it begins. */
  readonly at: number;
  readonly close: ']' | '}';
  wants: 'key' | 'colon' | 'value' | 'comma';
}

/** Blanks, signs, texts in plain quotation marks, texts in those of a word processor, and words. */
const TOKEN =
  /\s+|[[\]{},;=:]|'(?:\\.|[^'\\\r\n])*'|"(?:\\.|[^"\\\r\n])*"|`[^`]*`|[‘’‚“”„][^‘’‚“”„\r\n]*[‘’‚“”„]|[^\s[\]{},;='"`‘’‚“”„:]+/gy;
/** A word in the place of a value, which may have colons in it. */
const WORD = /[^\s[\]{},;='"`‘’‚“”„]+/y;

const OPEN: Readonly<Record<string, ']' | '}'>> = { '[': ']', '{': '}' };
const LITERAL = /^(?:-?\d+(?:\.\d+)?|true|false|null)$/;

/** The first mistake of a value, with the edits that remove all of them. Undefined where nothing is known to be wrong. */
export function valueMistake(text: string, from = 0, to = text.length): WritingMistake | undefined {
  const stack: Frame[] = [];
  const edits: TextEdit[] = [];
  let first: Omit<WritingMistake, 'edits'> | undefined;
  /** Where the last thing ends that is no blank. */
  let end = from;
  let isDone = false;
  const found = (span: TextSpan, what: string, fix: string, ...removing: TextEdit[]): void => {
    first ??= { span, what, fix };
    edits.push(...removing);
  };
  const insert = (at: number, written: string): TextEdit => ({ span: { from: at, to: at }, text: written });
  const unclosed = ({ at, close }: Frame, where: number): void =>
    found(
      { from: at, to: at + 1 },
      `The ${close === ']' ? '[' : '{'} that begins here is not closed.`,
      `Write its ${close} where the ${close === ']' ? 'list' : 'group'} ends.`,
      // Within a group as it is written, with spaces or without.
      insert(where, `${/\s/.test(text[at + 1] ?? '') ? ' ' : ''}${close}`),
    );
  const given = (): WritingMistake | undefined => first;

  for (let at = from; at < to; ) {
    TOKEN.lastIndex = at;
    const token = TOKEN.exec(text)?.[0];
    if (token === undefined) return given();
    const frame = stack.at(-1);
    const wants = frame?.wants ?? (isDone ? 'nothing' : 'value');
    let length = token.length;
    if (/^\s/.test(token)) {
      at += length;
      continue;
    }
    if (wants === 'value' || wants === 'key') {
      if (token === frame?.close) {
        stack.pop();
        done();
      } else if (wants === 'key') {
        if (/^[[\]{},;=:]/.test(token)) return given();
        plainQuotes(token, at);
        if (frame) frame.wants = 'colon';
      } else {
        const close = OPEN[token];
        if (close) stack.push({ at, close, wants: close === '}' ? 'key' : 'value' });
        else if (/^[\]},;=:]/.test(token)) return given();
        else {
          length = readText(token, at);
          done();
        }
      }
    } else if (wants === 'colon') {
      if (token === '=') {
        const place = { from: at, to: at + 1 };
        const blank = /\s/.test(text[at + 1] ?? '') ? '' : ' ';
        found(place, 'A colon is between a name and its value here, not an equals sign.', 'Write a colon.', {
          span: place,
          text: `:${blank}`,
        });
      } else if (token !== ':') return given();
      if (frame) frame.wants = 'value';
    } else if (token === frame?.close) {
      stack.pop();
      done();
    } else if (frame && (token === ',' || token === ';')) {
      const place = { from: at, to: at + 1 };
      if (token === ';') found(place, 'A comma is between entries here.', 'Write a comma.', { span: place, text: ',' });
      frame.wants = frame.close === '}' ? 'key' : 'value';
    } else if (frame && (token === ']' || token === '}')) {
      if (stack.at(-2)?.close !== token) return given();
      unclosed(frame, end);
      stack.pop();
      stack.pop();
      done();
    } else if (frame && !/^[=:]/.test(token)) {
      const place = { from: at, to: at + length };
      found(place, 'A comma is missing before this.', 'Write a comma between two entries.', insert(end, ','));
      frame.wants = frame.close === '}' ? 'key' : 'value';
      continue;
    } else return given();
    at += length;
    end = at;
  }
  for (const frame of stack.toReversed()) unclosed(frame, end);
  return first && { ...first, edits };

  function done(): void {
    const frame = stack.at(-1);
    if (frame) frame.wants = 'comma';
    else isDone = true;
  }

  /** A text or a number; gives how long it is. */
  function readText(token: string, at: number): number {
    if (/^['"`]/.test(token) || plainQuotes(token, at)) return token.length;
    WORD.lastIndex = at;
    const word = WORD.exec(text)?.[0] ?? token;
    if (!LITERAL.test(word)) {
      const span = { from: at, to: at + word.length };
      found(span, `“${excerpt(word)}” is no value: a text is in quotation marks.`, `Write '${excerpt(word)}'.`, {
        span,
        text: `'${word}'`,
      });
    }
    return word.length;
  }

  /** Quotation marks of a word processor, which mean nothing here. */
  function plainQuotes(token: string, at: number): boolean {
    if (!/^[‘’‚“”„]/.test(token)) return false;
    const last = at + token.length;
    const span = { from: at, to: last };
    found(
      span,
      'These are the quotation marks of a word processor.',
      `Write plain ones: '${excerpt(token.slice(1, -1))}'.`,
      {
        span: { from: at, to: at + 1 },
        text: "'",
      },
    );
    edits.push({ span: { from: last - 1, to: last }, text: "'" });
    return true;
  }
}
