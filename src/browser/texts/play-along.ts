/** The texts of the page to play along with. Each screen has a file of its own, so that a page loads those it shows. */
import { PLAY_ALONG } from '../../texts/english/play-along.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const playAlongText = textsIn(PLAY_ALONG, LANGUAGE);
