/** The texts of pages, each table read once. A sentence with markup in it is shown by `parts/Text.astro`. */
import { AUTHORING } from '../texts/english/authoring.ts';
import { BLOCK } from '../texts/english/block.ts';
import { CAUTIONS } from '../texts/english/cautions.ts';
import { CLIP_FIGURE } from '../texts/english/clip-figure.ts';
import { COURSE } from '../texts/english/course.ts';
import { GUIDE } from '../texts/english/guide.ts';
import { HARP_CHOICE } from '../texts/english/harp-choice.ts';
import { HARPS } from '../texts/english/harps.ts';
import { LESSON } from '../texts/english/lesson.ts';
import { PAGE } from '../texts/english/page.ts';
import { SETTINGS } from '../texts/english/settings.ts';
import { TECHNIQUE_GROUPS, TECHNIQUES } from '../texts/english/techniques.ts';
import { LANGUAGE } from '../texts/language.ts';
import { textsIn } from '../texts/text.ts';

export const authoringText = textsIn(AUTHORING, LANGUAGE);
export const blockText = textsIn(BLOCK, LANGUAGE);
export const cautionText = textsIn(CAUTIONS, LANGUAGE);
export const clipFigureText = textsIn(CLIP_FIGURE, LANGUAGE);
export const courseText = textsIn(COURSE, LANGUAGE);
export const guideText = textsIn(GUIDE, LANGUAGE);
export const harpChoiceText = textsIn(HARP_CHOICE, LANGUAGE);
export const harpsText = textsIn(HARPS, LANGUAGE);
export const lessonText = textsIn(LESSON, LANGUAGE);
export const pageText = textsIn(PAGE, LANGUAGE);
export const settingText = textsIn(SETTINGS, LANGUAGE);
export const techniqueText = textsIn(TECHNIQUES, LANGUAGE);
export const techniqueGroupText = textsIn(TECHNIQUE_GROUPS, LANGUAGE);
