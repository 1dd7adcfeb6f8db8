/** The texts of links to blocks. Each screen has a file of its own, so that a page loads those it shows. */
import { BLOCK_LINK } from '../../texts/english/block-link.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const blockLinkText = textsIn(BLOCK_LINK, LANGUAGE);
