/** The signs of jumps as musicians write them, in other words than those that are read behind a bar line. */

/** A sign of a jump in other words, and how to write it. */
export interface JumpWords {
  /** Where the words end. */
  readonly to: number;
  readonly help: string;
}

const AIM = `(?: +to[ _-]*|[ ._-]*al[ ._-]*)(?:(?<fine>fine|fin|end)|(?<coda>coda)|segno)`;
const WORDS = [
  String.raw`(?:(?<capo>d\.? ?c\.?|da[ _-]?capo)|(?<back>d\.? ?s\.?|dal?[ _-]?segno))(?:${AIM})?`,
  '(?<leave>(?:to|da)[ _-]?coda)',
  'al[ _-]*(?:(?<alFine>fine)|(?<alCoda>coda))',
  String.raw`(?<segno>segno|𝄋|§|\$)`,
  '(?<here>coda|𝄌)',
  'fine',
];
/** Nothing hangs on to them. */
const JUMP_WORDS = new RegExp(String.raw`(?:${WORDS.join('|')})(?![^\s|,"{<@>])`, 'iy');

/** The sign that is meant by the words at an offset of a text; undefined where they mean none. */
export function jumpWords(text: string, from: number): JumpWords | undefined {
  JUMP_WORDS.lastIndex = from;
  const found = JUMP_WORDS.exec(text);
  if (!found) return undefined;
  const { capo, back, fine, coda, leave, alFine, alCoda, segno, here } = found.groups ?? {};
  const jump = capo !== undefined ? '|D.C.' : back !== undefined ? '|D.S.' : undefined;
  const goesBack = `Write ${jump ?? '|D.C. or |D.S.'} where the music goes back`;
  const help =
    fine || alFine
      ? `${goesBack}, and |fine where it ends after that. “al Fine” then appears by itself.`
      : coda || alCoda
        ? `${goesBack}, |to-coda where it leaves for the coda, and |coda where that begins. “al Coda” then appears by itself.`
        : `Write ${jump ?? (leave ? '|to-coda' : segno ? '|segno' : here ? '|coda' : '|fine')} with no space behind the bar line.`;
  return { to: from + found[0].length, help };
}
