/** How many columns of a monospaced font a text takes. */

/** Marks that are set over the character before them, and characters that are not seen. */
const NO_WIDTH = /[\p{Mn}\p{Me}\p{Cf}]/u;
/** Characters of East Asian scripts, full-width forms, and pictures: two columns each. From memory of UAX 11. */
const TWO_COLUMNS =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u;

/** The columns of a text on one line. */
export function columnsOfText(text: string): number {
  let columns = 0;
  for (const character of text) {
    if (character >= ' ' && character <= '~') columns++;
    else if (!NO_WIDTH.test(character)) columns += TWO_COLUMNS.test(character) ? 2 : 1;
  }
  return columns;
}

/** The text with spaces behind it, so that it takes so many columns. */
export const padColumns = (text: string, columns: number): string =>
  text + ' '.repeat(Math.max(0, columns - columnsOfText(text)));
