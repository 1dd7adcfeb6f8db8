/** Names of lesson files, made from what a person writes: a title, or a name with signs that an address cannot have. */

/** Letters that do not come apart into a plain letter and a mark, and how they are written without. */
const PLAIN_LETTERS: ReadonlyMap<string, string> = new Map([
  ['ß', 'ss'],
  ['æ', 'ae'],
  ['œ', 'oe'],
  ['ø', 'o'],
  ['đ', 'd'],
  ['ð', 'd'],
  ['ħ', 'h'],
  ['ı', 'i'],
  ['ł', 'l'],
  ['þ', 'th'],
]);

/** In characters: a name that fits a line of a terminal and the limits of every file system. */
const LONGEST_NAME = 60;

/**
 * One step of a lesson's name: small letters, digits, hyphens and underscores. Undefined where no letter or digit of the
 * text can be written so, as in a title in another script.
 */
export function lessonNameFrom(text: string): string | undefined {
  const name = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\0-\x7f]/gu, (letter) => PLAIN_LETTERS.get(letter) ?? letter)
    // “Don’t” is one word.
    .replace(/(?<=[a-z])['’](?=[a-z])/g, '')
    .replace(/[^a-z0-9_]+/g, '-')
    .replace(/^[-_]+|-+$/g, '');
  return name === '' ? undefined : shortened(name);
}

function shortened(name: string): string {
  if (name.length <= LONGEST_NAME) return name;
  const cut = name.slice(0, LONGEST_NAME + 1);
  const end = cut.lastIndexOf('-');
  return end > 0 ? cut.slice(0, end) : name.slice(0, LONGEST_NAME);
}

/** Whether one step of a lesson's name can be part of an address. */
export const isLessonName = (name: string): boolean => /^[A-Za-z0-9][A-Za-z0-9_-]*$/.test(name);

/**
 * Whether a machine has another use for a file of this name: the devices of Windows (“Naming Files, Paths, and Namespaces” in
 * Microsoft's reference), and the index page of a folder on most web servers.
 */
export const isReservedName = (name: string): boolean => /^(?:con|prn|aux|nul|com[0-9]|lpt[0-9]|index)$/i.test(name);
