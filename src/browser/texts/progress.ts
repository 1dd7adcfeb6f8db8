/** The texts of progress. Each screen has a file of its own, so that a page loads those it shows. */
import { PROGRESS } from '../../texts/english/progress.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const progressText = textsIn(PROGRESS, LANGUAGE);
