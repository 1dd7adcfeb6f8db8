/** The texts of a rhythm line. Each screen has a file of its own, so that a page loads those it shows. */
import { RHYTHM } from '../../texts/english/rhythm.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const rhythmText = textsIn(RHYTHM, LANGUAGE);
