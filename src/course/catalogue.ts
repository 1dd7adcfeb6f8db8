/** Every code there is: each subject's own catalogue. */
import { PATH_PROBLEMS } from '../curriculum/problems.ts';
import type { Catalogue } from '../diagnostics/catalogue.ts';
import { DOCUMENT_PROBLEMS } from '../document/problems.ts';
import { LESSON_PROBLEMS } from '../lesson/problems.ts';
import { NOTATION_PROBLEMS } from '../notation/problems.ts';
import { TECHNIQUE_PROBLEMS } from '../technique/problems.ts';
import { BLOCK_LINK_PROBLEMS } from './block-link/problems.ts';
import { CLIP_PROBLEMS } from './clips/problems.ts';
import { FIGURE_PROBLEMS } from './figures/problems.ts';
import { INLINE_PROBLEMS } from './inline/problems.ts';
import { COURSE_PROBLEMS } from './problems.ts';

/** By subject, in the order of the reference of messages. */
export const CATALOGUES: readonly { readonly title: string; readonly problems: Catalogue }[] = [
  { title: 'The course', problems: COURSE_PROBLEMS },
  { title: 'Its YAML', problems: DOCUMENT_PROBLEMS },
  { title: 'The text of a lesson', problems: LESSON_PROBLEMS },
  { title: 'The notation', problems: NOTATION_PROBLEMS },
  { title: 'Links that ask to be played', problems: BLOCK_LINK_PROBLEMS },
  { title: 'Figures', problems: FIGURE_PROBLEMS },
  { title: 'Components within a sentence', problems: INLINE_PROBLEMS },
  { title: 'Clips', problems: CLIP_PROBLEMS },
  { title: 'Techniques', problems: TECHNIQUE_PROBLEMS },
  { title: 'The path', problems: PATH_PROBLEMS },
];

/** The catalogues of all modules as one, by code. */
export const ALL_PROBLEMS: Catalogue = Object.assign({}, ...CATALOGUES.map(({ problems }) => problems));
