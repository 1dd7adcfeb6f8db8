/** The texts of notes that can be pressed. Each screen has a file of its own, so that a page loads those it shows. */
import { TONES } from '../../texts/english/tones.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const toneText = textsIn(TONES, LANGUAGE);
