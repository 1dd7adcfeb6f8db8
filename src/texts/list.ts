/** Lists within a sentence, in the language of the texts. */
import { LANGUAGE } from './language.ts';

const LISTS = new Intl.ListFormat(LANGUAGE);

/** `one, two and three`. */
export const listInWords = (words: readonly string[]): string => LISTS.format(words);
