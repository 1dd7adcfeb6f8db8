/** Text inside of ABC, where some characters are commands. Source: “The abc music standard 2.1”, 2011. */

const ESCAPES: readonly (readonly [RegExp, string])[] = [
  [/[\r\n\t]+/g, ' '],
  [/\\/g, '\\\\'],
  // What follows would be a comment (2.2.3).
  [/%/g, '\\%'],
  // Would begin the name of a character (8.2).
  [/&/g, '\\&'],
];

const escaped = (text: string): string => ESCAPES.reduce((value, [sign, to]) => value.replace(sign, to), text);

/** A text of an information field. */
export const fieldText = (text: string): string => escaped(text).trim();

/** A text between quotation marks, beside a note. */
export const quotedText = (text: string): string => escaped(text).replaceAll('"', '\u201d');

/**
 * A syllable of a `w:` field (5.1). Of the signs that have a meaning there only the hyphen can be escaped; the others are
 * written as the nearest character without one.
 */
export const lyricText = (text: string): string =>
  escaped(text)
    .trim()
    .replaceAll('-', '\\-')
    .replaceAll(' ', '~')
    .replaceAll('_', '\u2017')
    .replaceAll('*', '\u2217')
    .replaceAll('|', '\u00a6');
