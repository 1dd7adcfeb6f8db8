/** The texts of the further controls of a player. Each screen has a file of its own, so that a page loads those it shows. */
import { PLAYER_SHEET } from '../../texts/english/player/player-sheet.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const sheetText = textsIn(PLAYER_SHEET, LANGUAGE);
