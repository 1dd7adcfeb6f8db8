/** The texts of recordings. Each screen has a file of its own, so that a page loads those it shows. */
import { CLIPS } from '../../texts/english/clips.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const clipText = textsIn(CLIPS, LANGUAGE);
