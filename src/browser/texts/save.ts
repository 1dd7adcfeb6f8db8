/** The texts of the menu of files. Loaded with it. */
import { SAVE } from '../../texts/english/save.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const saveText = textsIn(SAVE, LANGUAGE);
