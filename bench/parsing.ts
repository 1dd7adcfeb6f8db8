/**
 * Whether reading stays linear on text made to be hard: each kind of it at a half and at the full length of a block, and
 * how the time of the whole compares with the time of the half. Two is linear; four would be quadratic.
 */
import { LONGEST_BLOCK, parseBlock } from '../src/notation/parse.ts';
import { ALONE, readBlock } from '../src/notation/read.ts';
import { leastOf } from './measure.ts';
import { ratio, row, type Section, seconds } from './table.ts';

const ROUNDS = 7;

/** Pieces repeated without end, on one line unless the piece has a line break. */
const PIECES: Readonly<Record<string, string>> = {
  'plain notes': '4 -4 5 -5 6 =3 | ',
  'opening braces': '{',
  'closing braces': '}',
  'braces, one too few closed': '{{ } ',
  'nested groups': '{4 {',
  'opening brackets': '4[',
  'closed brackets': '4[dip]',
  'opening parentheses': '(',
  'half chords': '(1 ',
  'one chord without end': '1 ',
  'angle brackets': '<',
  'broken quotations': '<a/b ',
  'quotations of nothing': '<a/b:c>',
  'quotation marks': '"',
  'words in quotation marks': '"x" ',
  'one quotation mark and remarks': '" # ',
  'bend signs': "'",
  'a bend without end': "4'",
  spaces: ' ',
  'bar lines': '|',
  colons: ':',
  'repeats never closed': '|: 4 ',
  endings: '|1 4 ',
  digits: '9',
  'minus signs': '-',
  'equals signs': '=',
  'full stops': '.',
  glides: '4>',
  'at signs': '@',
  letters: 'x',
  'words of one letter': 'x ',
  'unknown settings': 'x: y\n',
  phrases: 'phrase a: 4\n',
  'phrases that quote each other': 'phrase a: <a> <a>\n',
  lyrics: 'words: a-b _ *\n',
  'line breaks': '\n',
  remarks: '#',
  'look-alikes': '’',
  emoji: '🎵',
};

const lasting = (piece: string, length: number): string =>
  piece.repeat(Math.ceil(length / piece.length)).slice(0, length);

export async function parsing(): Promise<Section> {
  const rows = [];
  for (const [name, piece] of Object.entries(PIECES)) {
    const half = await timed(lasting(piece, LONGEST_BLOCK / 2));
    const whole = await timed(lasting(piece, LONGEST_BLOCK));
    rows.push(
      row(
        `${name} ${JSON.stringify(piece)}`,
        `${seconds(whole.parse).padStart(8)} ×${ratio(whole.parse / half.parse)}, understood ${seconds(whole.read).padStart(8)} ×${ratio(whole.read / half.read)}`,
      ),
    );
  }
  return {
    title: 'Reading text made to be hard',
    how: `A block of ${LONGEST_BLOCK / 1024} KB read into a tree, then understood; × is how much longer it takes than half of it. Least of ${ROUNDS} rounds.`,
    rows,
  };
}

async function timed(text: string): Promise<{ parse: number; read: number }> {
  // Once warm: the first of all would be charged with compiling.
  for (let round = 0; round < 3; round++) readBlock(text, ALONE);
  const parse = (await leastOf(ROUNDS, () => parseBlock(text))).clock;
  const read = (await leastOf(ROUNDS, () => readBlock(text, ALONE))).clock;
  return { parse, read };
}

if (import.meta.main) (await import('./table.ts')).print(await parsing());
