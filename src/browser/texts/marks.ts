/** The texts of the marks of what is done. Each screen has a file of its own, so that a page loads those it shows. */
import { DONE_MARKS } from '../../texts/english/marks.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const marksText = textsIn(DONE_MARKS, LANGUAGE);
