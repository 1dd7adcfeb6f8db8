/** The texts of the choice of a harp. Each screen has a file of its own, so that a page loads those it shows. */
import { HARP } from '../../texts/english/harp.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const harpText = textsIn(HARP, LANGUAGE);
