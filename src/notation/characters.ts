/**
 * People paste tab from word processors and chat programs, which turn quotes, dashes and spaces into look-alikes.
 * Those that can only mean one thing are read as that one, place for place, so that offsets hold.
 */
const PLAIN: Readonly<Record<string, string>> = {
  '‘': "'",
  '’': "'",
  '‚': "'",
  '‛': "'",
  '′': "'",
  '´': "'",
  '`': "'",
  ʼ: "'",
  '＇': "'",
  '“': '"',
  '”': '"',
  '„': '"',
  '‟': '"',
  '«': '"',
  '»': '"',
  '＂': '"',
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '―': '-',
  '−': '-',
  '－': '-',
  '﹣': '-',
  '│': '|',
  '┃': '|',
  '¦': '|',
  '｜': '|',
  '∣': '|',
  '❘': '|',
  '\u00a0': ' ',
  '\u2002': ' ',
  '\u2003': ' ',
  '\u2007': ' ',
  '\u2009': ' ',
  '\u200a': ' ',
  '\u202f': ' ',
  '\u3000': ' ',
  '\t': ' ',
  '\u200b': ' ',
  '\ufeff': ' ',
  '＝': '=',
  '（': '(',
  '）': ')',
  '［': '[',
  '］': ']',
  '｛': '{',
  '｝': '}',
  '＜': '<',
  '＞': '>',
  '‹': '<',
  '›': '>',
  '：': ':',
  '．': '.',
  '／': '/',
  '⁄': '/',
  '∕': '/',
  '＋': '+',
  '＊': '*',
  '０': '0',
  '１': '1',
  '２': '2',
  '３': '3',
  '４': '4',
  '５': '5',
  '６': '6',
  '７': '7',
  '８': '8',
  '９': '9',
};

const LOOKALIKE = new RegExp(`[${Object.keys(PLAIN).join('')}]`, 'g');

/** The text with every look-alike in its plain form; the same length. */
export const plainCharacters = (text: string): string =>
  text.replace(LOOKALIKE, (character) => PLAIN[character] ?? character);

/** Half steps a bend sign counts: `'` one, and the double and triple primes of typographers two and three. */
export const BEND_SIGNS: Readonly<Record<string, number>> = { "'": 1, '″': 2, '‴': 3 };

/** How a character is named in a message, where it cannot be printed as it is. */
export function nameOfText(text: string): string {
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  return shown.replace(/[\p{Cc}\p{Zl}\p{Zp}\p{Cs}]/gu, (character) => {
    const code = character.charCodeAt(0).toString(16).toUpperCase();
    return `[U+${code.padStart(4, '0')}]`;
  });
}

/** For each opening brace from an offset on, the one that closes it, if any does. */
export function pairedBraces(text: string, from: number): Map<number, number> {
  const pairs = new Map<number, number>();
  const open: number[] = [];
  for (let i = from; i < text.length; i++) {
    if (text[i] === '{') open.push(i);
    else if (text[i] === '}') {
      const opening = open.pop();
      if (opening !== undefined) pairs.set(opening, i);
    }
  }
  return pairs;
}
