/** The texts of a block before its player is loaded. Each screen has a file of its own, so that a page loads those it shows. */
import { PLAYER_BUTTON } from '../../texts/english/player/player-button.ts';
import { LANGUAGE } from '../../texts/language.ts';
import { textsIn } from '../../texts/text.ts';

export const playerButtonText = textsIn(PLAYER_BUTTON, LANGUAGE);
