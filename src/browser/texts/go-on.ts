/** The texts of what is offered again. Each screen has a file of its own, so that a page loads those it shows. */
import { GO_ON } from '../../texts/english/go-on.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const goOnText = textsIn(GO_ON, LANGUAGE);
