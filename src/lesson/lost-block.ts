/** Blocks that lost their fence: lines outside of any block that can hardly be anything but settings and music. */

import type { TextSpan } from '../diagnostics/diagnostic.ts';
import { HEADER_KEYS } from '../notation/parse.ts';

const KEYS: ReadonlySet<string> = new Set(HEADER_KEYS);

/** A number of slots, a hole with its signs, holes in parentheses, a bar line, a sign that moves into the next note. */
const MUSIC_WORD =
  /^(?:[.=]\d*|-?\d{1,2}'{0,4}q?o?\*?(?:\[[^\]]*\])?|-?\(\d{1,2}\)?|\d{1,2}\)|\|{1,2}|\|[:\]]|:\||>|%|"[^"]*")$/;

/** Where a text reads as a block: from its first such line to its last. Undefined where it does not. */
export function lostBlockIn(text: string): TextSpan | undefined {
  let settings = 0;
  let music = 0;
  let span: TextSpan | undefined;
  for (const match of text.matchAll(/[^\r\n]+/g)) {
    const [line] = match;
    const isSetting = isSettingLine(line);
    const isMusic = !isSetting && isMusicLine(line);
    if (!isSetting && !isMusic) continue;
    if (isSetting) settings++;
    else music++;
    const from = span?.from ?? match.index + line.search(/\S/);
    span = { from, to: match.index + line.trimEnd().length };
  }
  // A sentence may begin with one of the words and a colon; music has bar lines, and settings come in company.
  return music > 0 || settings > 1 ? span : undefined;
}

/** `slot: 1/4`, `phrase call: -2 -3`: a word of the head of a block, in small letters as it is there. */
function isSettingLine(line: string): boolean {
  const [, key, phrase] = /^[ \t]{0,3}(?:([a-z]{2,9})|phrase ([a-z][a-z0-9-]*)):[ \t]/.exec(line) ?? [];
  return phrase !== undefined || (key !== undefined && KEYS.has(key));
}

/** Four words or more, all of which are music, with a bar line or a hold among them. */
function isMusicLine(line: string): boolean {
  if (line.length > 400 || !/[|=]/.test(line)) return false;
  const words = line.trim().split(/[ \t]+/);
  return words.length >= 4 && words.every((word) => MUSIC_WORD.test(word)) && words.some((word) => /\d/.test(word));
}
