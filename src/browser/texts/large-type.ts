/** The texts of large type. Each screen has a file of its own, so that a page loads those it shows. */
import { LARGE_TYPE } from '../../texts/english/player/large-type.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const largeTypeText = textsIn(LARGE_TYPE, LANGUAGE);
